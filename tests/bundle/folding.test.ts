import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import type { Command } from '../../src/bundle/command.ts';
import { whyNotFolded } from '../../src/bundle/folding.ts';
import { replay } from '../../src/bundle/replay.ts';
import type { Point, Step } from '../../src/procedure/procedure.ts';
import { open } from './deeds.ts';
import { answer, given } from './story.ts';
import { choice, computed, count, gap, holdPoint, reading, step, text, tick, timed, written } from './texts.ts';
import { ines, jon, vera, type World, worldOf } from './world.ts';

const skill = 'top-stitch vinyl';
const can = (who: HandId, level: number, words = skill): Command => ({
  do: 'set skill',
  hand: vera,
  who,
  skill: words,
  level,
});
const told = (points: readonly Point[], words: Parameters<typeof step>[2] = {}): Step => ({
  ...step('sew', points, words),
  prose: 'Keep the sleeve toward the front.',
});
const forEver = (sewn: Step): Step => ({ ...sewn, facts: { ...sewn.facts, cannotBeUndone: true } });
const room = (level: number, words = skill) =>
  given(text([step('a', [tick('b')])]), can(ines, level, words)).world.room;

test.each<readonly [string, Step, RegExp | null]>([
  ['ticks', told([tick('a'), tick('b')]), null],
  ['words and a reading without a limit', told([written('roll'), reading('a'), count('b'), timed('c')]), null],
  ['a choice in which nothing is wrong', told([choice('which', '*red', '*blue')]), null],
  ['a skill that the hand can teach', told([tick('a')], { needsSkill: skill }), null],
  ['a caution', told([tick('a')], { cautions: ['NOTICE'] }), /has a caution/],
  ['what cannot be undone', forEver(told([tick('a')])), /cannot be undone/],
  ['a hold point', told([tick('a'), holdPoint('b')]), /hold point/],
  ['a reading with a limit', told([tick('a'), reading('b', '312 ±1.5')]), /has a limit/],
  ['a count with a limit', told([count('b', '22')]), /has a limit/],
  ['a time with a limit', told([timed('b', 'min 10')]), /has a limit/],
  ['something worked out with a limit', told([computed('g', gap('a', 'b'), 'max 1')]), /has a limit/],
  ['a choice with an option that is wrong', told([choice('which', '*match', 'darker')]), /has a limit/],
  ['no explanations', { ...told([tick('a')]), prose: ' \n' }, /no explanations/],
])('even who can teach folds a step with %s, or is told why not', (_, sewn, why) => {
  const found = whyNotFolded(room(4), ines, sewn);
  if (why === null) expect(found).toBeNull();
  else expect(found?.message).toMatch(why);
});

test.each<readonly [number, boolean, boolean]>([
  [0, false, false],
  [1, false, false],
  [2, false, false],
  [3, false, true],
  [4, true, true],
])('at level %i an operation of that skill is folded: %s, and a step that asks for none: %s', (level, own, any) => {
  expect(whyNotFolded(room(level), ines, told([tick('a')], { needsSkill: 'Top-Stitch  vinyl' })) === null).toBe(own);
  expect(whyNotFolded(room(level), ines, told([tick('a')])) === null).toBe(any);
  // Somebody else’s level, or one in another operation, opens nothing.
  expect(whyNotFolded(room(level), jon, told([tick('a')]))?.message).toMatch(/No operation is entered/);
  expect(whyNotFolded(room(level, 'binding'), ines, told([tick('a')], { needsSkill: skill }))?.message).toMatch(
    /level 0:/,
  );
});

const lining = text([told([tick('a'), tick('b')], { needsSkill: skill })]);
const folded = (world: World): Command => ({ ...answer('')(world), folded: true }) as Command;
const judged = ({ entries, texts }: World) => {
  const judge = replay((understood) => texts.get(understood), 'nobody');
  return entries.map((entry) => judge.next(entry)).find(({ ok }) => !ok);
};

test('an answer says that it was given folded, where it may be, and is verified so', () => {
  const at = given(lining, can(ines, 4), open);
  const after = at.when(folded).leaves(['checked', { point: 'a', folded: true }]);
  expect(judged(after)).toBeUndefined();
  expect(at.when(answer('')).leaves(['checked']).entries.at(-1)?.body).not.toHaveProperty('folded');
});

test('folded where it must not be is refused, and found in a ledger where somebody wrote it', () => {
  const alone = given(lining, can(ines, 3), open);
  alone.when(folded).refused('not-foldable', /for everybody below 4, can teach/);
  const wrote = alone.when(answer('')).leaves(['checked']);
  const entries = wrote.entries.map((entry) =>
    entry.kind === 'checked' ? { ...entry, body: { ...entry.body, folded: true as const } } : entry,
  );
  expect(judged({ ...wrote, entries })).toMatchObject({ ok: false });
  expect(judged(worldOf(lining))).toBeUndefined();
});

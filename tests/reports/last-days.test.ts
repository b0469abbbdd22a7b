import { expect, test } from 'vitest';
import { lastDays, skillMatrix } from '../../src/reports/skill-matrix.ts';
import { open, resume } from '../bundle/deeds.ts';
import { answered, given, wait } from '../bundle/story.ts';
import { step, text, tick } from '../bundle/texts.ts';
import { done, ines, jon, vera, type World } from '../bundle/world.ts';

const DAY = 24 * 3600 * 1000;
const skill = 'binding';
const lining = text([
  step('bind', [tick('a'), tick('b')], { needsSkill: 'Binding' }),
  step('tie', [tick('c'), tick('d')], { needsSkill: 'tying' }),
  step('look', [tick('e')]),
]);
const can = (who: typeof ines, words: string) =>
  ({ do: 'set skill', hand: vera, who, skill: words, level: 3 }) as const;
const daysIn = ({ room, texts, entries }: World, parts = [entries]) => {
  const days = lastDays({ room, texts });
  for (const part of parts) days.see(part);
  const matrix = skillMatrix({ room, texts }, days);
  const last = matrix.flatMap(({ skill, hands }) =>
    hands.flatMap(({ hand, lastDay }) => (lastDay === null ? [] : [`${skill} ${hand} ${lastDay}`])),
  );
  return { matrix, last };
};

const story = given(
  lining,
  ...[ines, jon].flatMap((who) => [can(who, skill), can(who, 'tying'), can(who, 'hand sewing')]),
  open,
  answered(''),
  wait(2 * DAY),
  answered(''),
  (world) => done(world, { do: 'pause', hand: ines }),
  (world) => done(world, resume(jon)),
  wait(DAY),
  answered('', { by: jon }),
).world;

test('each hand’s last day in each operation, from the steps that need it', () => {
  const { matrix, last } = daysIn(story);
  expect(matrix.map((each) => each.skill)).toEqual(['Binding', 'tying', 'hand sewing']);
  expect(last).toEqual([`Binding ${ines} 2026-11-27`, `tying ${jon} 2026-11-28`]);
});

test('the order in which a ledger is handed over makes no difference, nor does a clock that was set back', () => {
  expect(
    daysIn(
      story,
      [...story.entries].reverse().map((entry) => [entry]),
    ).last,
  ).toEqual(daysIn(story).last);
  const back = given(story, wait(-20 * DAY), answered('', { by: jon })).world;
  expect(daysIn(back).last).toEqual(daysIn(story).last);
});

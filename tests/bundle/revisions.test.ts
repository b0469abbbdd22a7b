import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import { isBehind } from '../../src/bundle/behind.ts';
import type { Command } from '../../src/bundle/command.ts';
import { check, finish, hold, open } from './deeds.ts';
import { given, upTo } from './story.ts';
import { step, text, tick } from './texts.ts';
import { digest, gone, ines, LIN, olaf, release, vera, type World, withText } from './world.ts';

const plain = text([step('mark', [tick('marked')])]);
const twoTexts = withText(given(plain).world, 'b', text([step('mark', [tick('marked well')])]));

const keepOn = (hand: HandId = vera): Command => ({ hand, do: 'keep on' });
const withdraw = (revision: string): Command => ({
  hand: vera,
  do: 'withdraw',
  procedure: LIN,
  revision,
  reason: 'lines wrong',
});
const behind = ({ room, bundle }: World): boolean => bundle !== undefined && isBehind(room, bundle);

test('who wrote a text is named, and another supervisor releases it', () => {
  const start = given(twoTexts);
  start.when(release('b')).leaves(['released', { revision: 'B', author: ines, digest: digest('b') }]);
  start.when({ ...release('b'), author: gone }).leaves(['released', { author: gone }]);
  start.when({ ...release('b'), author: 'OP-99' as HandId }).refused('author-unknown');
  start.when({ ...release('b'), author: vera }).refused('own-text', /let another supervisor/);
  start.when({ ...release('b', olaf), author: vera }).leaves(['released', { author: vera }]);
});

test('in a room with one supervisor they release what they wrote, and that is recorded', () => {
  const one = { ...release('b'), supervisors: 'one' } as const;
  given(twoTexts)
    .when({ ...one, author: vera })
    .leaves(['released', { author: vera, alone: true }]);
  const { room } = given(twoTexts, { ...one, author: ines }).world;
  expect(room.releases.get(LIN)?.at(-1)).not.toHaveProperty('alone');
});

test('of a bundle on an older revision a supervisor says that it is finished on that, once for each newer one', () => {
  given(twoTexts, open).when(keepOn()).refused('revision-in-use');
  given(twoTexts).when(keepOn()).refused('not-opened');
  const newer = given(twoTexts, open, release('b'));
  expect(behind(newer.world)).toBe(true);
  newer.when(keepOn(ines)).refused('role');
  newer.when(keepOn()).leaves(['kept-on', { revision: 'A', current: 'B' }]);
  const kept = given(newer.world, keepOn());
  expect(behind(kept.world)).toBe(false);
  kept.when(keepOn()).refused('kept-on-already');
  expect(behind(given(kept.world, release('a')).world)).toBe(true);
});

test('a bundle that is on hold, finished, or on the newest revision waits for no such word', () => {
  expect(behind(given(twoTexts, release('b')).world)).toBe(false);
  expect(behind(given(twoTexts, open).world)).toBe(false);
  expect(behind(given(twoTexts, open, hold(), release('b')).world)).toBe(false);
  expect(behind(given(twoTexts, open, upTo('finish'), finish(2), release('b')).world)).toBe(false);
});

test('a word for a bundle ends with the revision that it was kept on, not with the one it was kept on beside', () => {
  const kept = given(twoTexts, open, release('b'), keepOn());
  expect(behind(given(kept.world, withdraw('B')).world)).toBe(false);
  const own = given(kept.world, withdraw('A'));
  expect(behind(own.world)).toBe(true);
  own.when(keepOn()).leaves(['kept-on', { revision: 'A', current: 'B' }]);
});

test('a revision taken out of use leaves its bundles to be decided of', () => {
  const none = given(twoTexts, open, withdraw('A'));
  expect(behind(none.world)).toBe(true);
  none.when(keepOn()).leaves(['kept-on', { revision: 'A', current: null }]);
  expect(behind(given(none.world, keepOn(), release('b')).world)).toBe(true);
});

test('a sheet that was on the screen is named, when it was released with the text', () => {
  const sheets = [{ language: 'es', digest: digest('e'), understood: digest('f') }] as const;
  const spanish = given(
    withText(given(plain).world, 'b', text([step('mark', [tick('marked well')])])),
    { ...release('b'), sheets },
    open,
  );
  const shown = (sheet: string): Command => ({ ...check('mark', 'marked well', 1), sheet: digest(sheet) }) as Command;
  spanish.when(shown('e')).leaves(['checked', { digest: digest('b'), sheet: digest('e') }]);
  spanish.when(shown('c')).refused('sheet-unknown');
  given(twoTexts, { ...release('b'), sheets })
    .when({ ...release('b'), sheets })
    .refused('release-same');
  given(twoTexts, { ...release('b'), sheets })
    .when(release('b'))
    .leaves(['released', { revision: 'C' }]);
});

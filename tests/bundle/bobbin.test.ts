import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import type { StationThread } from '../../src/bundle/bobbin.ts';
import type { Command } from '../../src/bundle/command.ts';
import { type Next, next } from '../../src/bundle/next.ts';
import type { Procedure } from '../../src/procedure/procedure.ts';
import { hold, leave, open, rework, settle, strike } from './deeds.ts';
import { answer, answered, given } from './story.ts';
import { reading, step, text, tick } from './texts.ts';
import { done, ines, jon, stepId, vera, type World } from './world.ts';

const visible = (of: ReturnType<typeof step>) => ({
  ...of,
  facts: { ...of.facts, seams: { text: 'T1', ids: ['T1'], stitch: '301', stitchLength: '5', visible: true } },
});
const lining = text([
  step('mark', [tick('marked')]),
  visible(step('sew', [reading('line', '312 ±1.5'), tick('sewn')])),
  step('tie', [tick('tied')]),
]);

/** A bobbin of 30 m; the sewing takes so many metres, the tying two. */
const thread = (metres: number): StationThread => ({
  full: new Fraction(30_000),
  takes: new Map([
    [stepId('sew'), new Fraction(metres * 1000)],
    [stepId('tie'), new Fraction(2000)],
  ]),
});
const wanted = ({ room, bundle }: World, metres: number, hand: HandId = ines): Next => {
  if (!bundle) throw new Error('no bundle');
  return next(lining as Procedure, room, bundle, hand, thread(metres));
};
const wind = (metres: number, hand: HandId = ines): Command => ({
  do: 'fit bobbin',
  hand,
  wound: String(metres * 1000),
});
/** The answer to what is wanted, with what its step takes. */
const sewn =
  (metres: number, typed = '') =>
  (world: World): Command =>
    ({ ...answer(typed)(world), took: String(metres * 1000) }) as Command;

const sews =
  (...args: Parameters<typeof sewn>) =>
  (world: World): World =>
    done(world, sewn(...args)(world));

const atSeam = given(lining, open, answered());

test('before a seam that shows it is asked what is on the bobbin, until somebody says', () => {
  expect(wanted(atSeam.world, 4.5)).toMatchObject({ want: 'bobbin', at: { step: { id: 'sew' } }, left: null });
  expect(next(lining as Procedure, atSeam.world.room, atSeam.world.bundle as never, ines)).toMatchObject({
    want: 'point',
  });
  const full = given(atSeam.world, wind(30));
  expect(wanted(full.world, 4.5)).toMatchObject({ want: 'point', point: { id: 'line' } });
  atSeam.when(wind(12.5)).leaves(['bobbin-fitted', { wound: '12500', left: null, set: 1, step: 'sew' }]);
});

test('a seam that fits what is left is sewn on, one that does not asks for a fresh bobbin with both numbers', () => {
  const low = given(atSeam.world, wind(3.1));
  expect(wanted(low.world, 3.1)).toMatchObject({ want: 'point' });
  const short = wanted(low.world, 4.5);
  expect(short).toMatchObject({ want: 'bobbin' });
  expect(short.want === 'bobbin' && [short.left?.toString(), short.takes.toString()]).toEqual(['3100', '4500']);
  given(low.world, wind(3.1))
    .when({ ...wind(30), takes: '4500' } as Command)
    .leaves(['bobbin-fitted', { wound: '30000', left: '3100', takes: '4500' }]);
});

test('a step that takes more than a full bobbin begins on a full one and asks no more', () => {
  expect(wanted(given(atSeam.world, wind(29)).world, 65)).toMatchObject({ want: 'bobbin' });
  expect(wanted(given(atSeam.world, wind(30)).world, 65)).toMatchObject({ want: 'point' });
});

test('where nothing shows, and where the seam is begun, nobody is asked', () => {
  const begun = given(atSeam.world, wind(5), sews(4.5, '312'), wind(1));
  expect(wanted(begun.world, 4.5)).toMatchObject({ want: 'point', point: { id: 'sewn' } });
  const tying = given(begun.world, sews(4.5));
  expect(wanted(tying.world, 4.5)).toMatchObject({ want: 'point', point: { id: 'tied' } });
});

test('the thread of a step is counted with its last point, once, and again when it is sewn again', () => {
  const start = given(atSeam.world, wind(30));
  start.when(sewn(4.5, '312')).leaves(['checked', { point: 'line' }]);
  const half = given(start.world, sews(4.5, '312'));
  half.when(sewn(4.5)).leaves(['checked', { point: 'sewn' }], ['thread-used', { step: 'sew', set: 1, took: '4500' }]);
  const done = given(half.world, sews(4.5));
  expect(done.world.room.bobbin).toBe('25500');
  const entry = done.world.entries.findLast(({ kind }) => kind === 'checked')?.seq ?? 0;
  const redone = given(done.world, strike(entry), sews(4.5));
  expect(redone.world.room.bobbin).toBe('25500');
  const again = given(done.world, hold(), settle(rework('sew', 1)), { do: 'resume', hand: ines });
  const resewn = given(again.world, sews(4.5, '312'), sews(4.5));
  expect(resewn.world.room.bobbin).toBe('21000');
});

test('a reading out of its limit ends no step, and less than nothing is never left', () => {
  const start = given(atSeam.world, wind(3));
  start.when(sewn(4.5, '320')).leaves(['checked', { verdict: 'above' }]);
  const sewnOut = given(start.world, sews(4.5, '312'), sews(4.5));
  expect(sewnOut.world.room.bobbin).toBe('0');
});

test('only whoever has the bundle says what is on the bobbin, in metres that can be', () => {
  atSeam.when(wind(30, jon)).refused('not-at-work');
  for (const wound of ['0', '-5', '', 'x', '99999999'])
    atSeam.when({ ...wind(30), wound } as Command).refused('bobbin-length');
  given(atSeam.world, leave).when(wind(30)).refused('not-at-work');
  given(lining).when(wind(30, vera)).refused('not-at-work');
  atSeam.when({ ...wind(30), paper: { by: vera, doneAt: '2026-11-25T08:10:00Z' } } as Command).refused('not-on-paper');
});

test('thread is counted of no step that is not sewn', () => {
  atSeam
    .when({ do: 'use thread', hand: ines, set: 1, step: stepId('sew'), took: '4500' })
    .refused('thread-not-used', /not sewn yet/);
});

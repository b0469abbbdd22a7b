import { expect, test } from 'vitest';
import { elapsedSeconds } from '../../src/bundle/elapsed.ts';
import { passed } from '../../src/bundle/passed.ts';
import { hold, leave, note, open, resume, rework, settle, signOn, startClock, strike } from './deeds.ts';
import { answer, answered, given, wait } from './story.ts';
import { step, text, tick, timed } from './texts.ts';
import { type World, wants } from './world.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const glue = text([step('glue', [timed('flash', 'min 10'), tick('laid')])]);
const drying = [open, startClock('glue', 'flash')];

const seconds = ({ bundle, now }: World): number | undefined => {
  const clock = bundle?.clocks.get('1 glue flash');
  return bundle && clock && elapsedSeconds(clock, bundle.lastAt, now);
};

const lastBody = (world: World): object | undefined => world.entries.at(-1)?.body;

/** Turned to summer time: the same moment, another offset. */
const summerTime = (world: World): World => ({ ...world, now: { ...world.now, offset: world.now.offset + 60 } });

test('a clock runs on over leaving, taking up again and whatever is recorded meanwhile', () => {
  const { world } = given(glue, ...drying, leave, wait(3 * MINUTE), resume(), note('smells'), wait(MINUTE));
  expect(seconds(world)).toBe(8 * 60);
  expect(wants(world)).toMatchObject({ want: 'point', clock: { setBack: false } });
  given(world, wait(2 * MINUTE))
    .when(answer())
    .leaves(['checked', { value: '10', verdict: 'within' }]);
});

test('a clock runs on through a hold, and stops counting when the work goes back', () => {
  const held = given(glue, ...drying, hold(), wait(5 * MINUTE));
  expect(seconds(held.world)).toBe(7 * 60);
  const back = given(held.world, settle(rework('glue'))).world;
  expect(seconds(back)).toBeUndefined();
  given(back).when(answer()).refused('clock-not-started');
});

test('a struck time is taken anew', () => {
  const { world } = given(glue, ...drying, wait(9 * MINUTE), answered());
  given(world, strike(world.entries.length)).when(answer()).refused('clock-not-started');
});

test('parts of a second do not count, and half units are exact', () => {
  given(glue, ...drying, wait(9 * MINUTE + 30_999))
    .when(answer())
    .leaves(['checked', { value: '10.5' }]);
  given(glue, ...drying, wait(8 * MINUTE + 59_999))
    .when(answer())
    .leaves(['checked', { verdict: 'below' }]);
});

test('summer time moves no clock', () => {
  const { world } = given(glue, ...drying, summerTime, wait(4 * MINUTE));
  expect(seconds(world)).toBe(5 * 60);
  expect(lastBody(given(world, note('x')).world)).not.toHaveProperty('clockBack');
});

test('a clock set back in the middle is marked in the entry, and what passed before it still counts', () => {
  const set = given(glue, ...drying, wait(4 * MINUTE), note('before'), wait(-2 * HOUR));
  expect(seconds(set.world)).toBe(5 * 60);
  const marked = set.when(note('after')).leaves(['noted', { clockBack: 2 * 3600 - 60 }]);
  expect(wants(marked)).toMatchObject({ clock: { elapsedMs: 5 * MINUTE, setBack: true } });
});

test('a clock put right again adds nothing that did not pass: it is timed anew', () => {
  const wrong = given(glue, ...drying, wait(-1 * HOUR), note('wrong'), wait(HOUR), note('right'), wait(MINUTE));
  expect(seconds(wrong.world)).toBeLessThanOrEqual(4 * 60);
  const tooShort = wrong.when(answer()).leaves(['checked', { verdict: 'below', clockWasSetBack: true }]);
  expect(wants(tooShort)).toMatchObject({ want: 'point', clock: null });
  const anew = given(tooShort, startClock('glue', 'flash'), wait(10 * MINUTE));
  expect(lastBody(given(anew.world, answered()).world)).toMatchObject({ value: '11', verdict: 'within' });
});

test('a clock set back and left so tells less than passed, never more', () => {
  const { world } = given(glue, ...drying, wait(-1 * MINUTE), note('back'), wait(4 * MINUTE));
  expect(seconds(world)).toBeLessThanOrEqual(5 * 60);
  expect(seconds(world)).toBeGreaterThan(0);
});

test('a clock set back between start and stop gives no time below nothing', () => {
  given(glue, ...drying, wait(-1 * HOUR))
    .when(answer())
    .leaves(['checked', { value: '0', verdict: 'below', by: '10', clockBack: 3540 }]);
});

test('only what happens to the bundle is marked', () => {
  given(glue, open, wait(-2 * HOUR))
    .when(signOn())
    .leaves(['signed-on', { role: 'sewer' }]);
});

test('a clock set forward can’t be told from waiting', () => {
  const { world } = given(glue, ...drying, wait(HOUR), answered());
  expect(lastBody(world)).toMatchObject({ value: '61' });
  expect(lastBody(world)).not.toHaveProperty('clockBack');
});

test.each([
  ['2026-11-25T10:00:00Z', '2026-11-25T10:00:01Z', { ms: 1000, setBackMs: 0 }],
  ['2026-11-25T10:00:00Z', '2026-11-25T09:59:59Z', { ms: 0, setBackMs: 1000 }],
  ['2026-11-25T10:00:00.000Z', '2026-11-25T09:59:59.001Z', { ms: 0, setBackMs: 0 }],
  ['2026-11-25T10:00:00+01:00', '2026-11-25T09:00:00Z', { ms: 0, setBackMs: 0 }],
])('from %s to %s', (from, to, expected) => expect(passed(from, to)).toEqual(expected));

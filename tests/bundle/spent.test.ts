import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseStamp } from '../../src/base/instant.ts';
import type { Bundle } from '../../src/bundle/bundle.ts';
import type { RecordedEntry } from '../../src/bundle/entries.ts';
import { evolve } from '../../src/bundle/evolve.ts';
import { spent } from '../../src/bundle/spent.ts';
import {
  concession,
  finish,
  handOver,
  hold,
  leave,
  note,
  open,
  resume,
  rework,
  scrap,
  settle,
  startClock,
} from './deeds.ts';
import { answered, given, upTo, wait } from './story.ts';
import { reading, step, text, tick, timed } from './texts.ts';
import { jon, type World } from './world.ts';

const MINUTE = 60_000;
const ticks = text([step('sew', [tick('sewn'), tick('pressed')])]);
const glue = text([step('glue', [timed('flash', 'min 10'), tick('laid')])]);

/** What each entry of the bundle after its ticket took: `work 3`, `waiting 2`, `pause 60`, in minutes; `0` for no time at all. */
function told({ entries }: World): readonly string[] {
  let bundle: Bundle | undefined;
  return ofBundle(entries).flatMap((entry) => {
    const parts = Object.entries(spent(bundle, entry)).filter(([, ms]) => ms !== 0);
    const words = parts.map(([what, ms]) => `${what} ${ms / MINUTE}`).join(' and ') || '0';
    const isTicket = bundle === undefined;
    bundle = evolve(bundle, entry);
    return isTicket ? [] : [`${entry.kind}: ${words}`];
  });
}

const ofBundle = (entries: readonly RecordedEntry[]) => entries.filter(({ body }) => 'ticket' in body);

test('a ticket lies until it is opened; from then on time is work', () => {
  expect(told(given(ticks, wait(9 * MINUTE), open, wait(MINUTE), answered(), answered()).world)).toEqual([
    'opened: pause 10',
    'checked: work 2',
    'checked: work 1',
  ]);
});

test('what was left lies until it is taken up, whatever is written on it meanwhile', () => {
  expect(told(given(ticks, open, leave, wait(59 * MINUTE), note('came by'), resume(), answered()).world)).toEqual([
    'opened: pause 1',
    'paused: work 1',
    'noted: pause 60',
    'resumed: pause 1',
    'checked: work 1',
  ]);
});

test('after a power cut nobody left, and still it lay until it was taken up', () => {
  expect(told(given(ticks, open, answered(), wait(21 * MINUTE), resume(), answered()).world)).toEqual([
    'opened: pause 1',
    'checked: work 1',
    'resumed: pause 22',
    'checked: work 1',
  ]);
});

test('what is handed over lies until the other takes it up', () => {
  expect(told(given(ticks, open, handOver(jon), wait(4 * MINUTE), resume(jon)).world).slice(-2)).toEqual([
    'handed-over: work 1',
    'resumed: pause 5',
  ]);
});

test('from a hold to its settling everybody waits; what led to the hold was work', () => {
  const { world } = given(
    ticks,
    open,
    wait(2 * MINUTE),
    hold(),
    wait(8 * MINUTE),
    note('looking'),
    settle(rework('sew')),
  );
  expect(told(given(world, answered()).world)).toEqual([
    'opened: pause 1',
    'held: work 3',
    'noted: waiting 9',
    'settled: waiting 1',
    'checked: work 1',
  ]);
});

test('who leaves while it is on hold does not wait for it', () => {
  expect(told(given(ticks, open, hold(), leave, wait(59 * MINUTE), resume()).world).slice(-2)).toEqual([
    'paused: waiting 1',
    'resumed: pause 60',
  ]);
});

test('while a clock runs one waits, up to the answer that stops it', () => {
  expect(told(given(glue, open, startClock('glue', 'flash'), wait(11 * MINUTE), answered(), answered()).world)).toEqual(
    ['opened: pause 1', 'clock-started: work 1', 'checked: waiting 12', 'checked: work 1'],
  );
});

test('a clock that was stopped too early runs on, until its point is let through or its set scrapped', () => {
  const early = given(glue, open, startClock('glue', 'flash'), answered(), wait(3 * MINUTE), hold()).world;
  expect(told(early).slice(-2)).toEqual(['checked: waiting 1', 'held: waiting 4']);
  for (const how of [concession(), scrap(1)]) {
    const { world } = given(early, settle(how), note('goes on'));
    expect(told(world).at(-1)).toBe('noted: work 1');
  }
});

test('where the station’s clock was set back no time passed', () => {
  expect(told(given(ticks, open, wait(-30 * MINUTE), answered()).world).at(-1)).toBe('checked: 0');
});

test('all times of a bundle together are the time from its ticket to its last entry', () => {
  const measured = text([
    step('sew', [reading('m', '3 ±1'), tick('pressed')]),
    step('glue', [timed('flash', 'min 10')]),
  ]);
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 10 * MINUTE }), { minLength: 5, maxLength: 5 }), (ms) => {
      const [a = 0, b = 0, c = 0, d = 0, e = 0] = ms;
      const { world } = given(
        measured,
        ...[wait(a), open, wait(b), hold(), wait(c), settle(rework('sew')), leave, wait(d), resume(), wait(e)],
        ...[upTo('finish'), finish(2)],
      );
      const entries = ofBundle(world.entries);
      let bundle: Bundle | undefined;
      let sum = 0;
      for (const entry of entries) {
        sum += Object.values(spent(bundle, entry)).reduce((x, y) => x + y, 0);
        bundle = evolve(bundle, entry);
      }
      expect(sum).toBe(momentOf(entries.at(-1)) - momentOf(entries[0]));
    }),
    { numRuns: 30 },
  );
});

const momentOf = (entry: RecordedEntry | undefined): number => parseStamp(entry?.at ?? '')?.ms ?? Number.NaN;

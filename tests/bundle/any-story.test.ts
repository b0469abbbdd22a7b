import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openHold, setsLeft } from '../../src/bundle/bundle.ts';
import type { Command, SettleHow } from '../../src/bundle/command.ts';
import { elapsedSeconds } from '../../src/bundle/elapsed.ts';
import { readEntry } from '../../src/bundle/entries.ts';
import { progress } from '../../src/bundle/next.ts';
import { replay } from '../../src/bundle/replay.ts';
import { emptyRoom } from '../../src/bundle/room.ts';
import { anyCommand, anySettling } from './any-command.ts';
import { closed, FRESH_TEXT } from './close.ts';
import {
  concession,
  finish,
  goBack,
  handOver,
  hold,
  open,
  recut,
  resume,
  rework,
  scrap,
  setPin,
  settle,
  signOn,
  strike,
} from './deeds.ts';
import { answer, onward, patiently, wait } from './story.ts';
import { choice, computed, count, gap, holdPoint, reading, step, text, tick, timed, written } from './texts.ts';
import {
  attempt,
  done,
  ines,
  jon,
  olaf,
  release,
  remembered,
  situationOf,
  TICKET,
  vera,
  type World,
  wants,
  withText,
  worldOf,
} from './world.ts';

const steps = [
  step('kit', [count('pieces', '22'), written('roll')], { scope: 'bundle', cautions: ['NOTICE'] }),
  step('mark', [reading('a', '312 ±1.5', { places: 2 }), reading('b', '312 ±1.5')], {
    cautions: ['WARNING', 'CAUTION'],
  }),
  step('sew', [computed('gap', gap('a', 'b'), 'max 1'), timed('flash', '2 to 4'), choice('shade', '*match', 'off')], {
    backTo: 'mark',
    needsSkill: 'sewing',
  }),
  step('tie', [holdPoint('seen'), tick('tied')], { scope: 'bundle', cautions: ['DANGER'], backTo: 'kit' }),
];

const anyStart = fc.record({
  work: fc.constantFrom('set by set' as const, 'step by step' as const),
  readCautions: fc.constantFrom('once a bundle' as const, 'once a shift' as const, 'every time' as const),
  sets: fc.constantFrom(1, 2, 3),
});

/** A room whose next texts lack the first step. */
function begun({ sets, ...rest }: typeof anyStart extends fc.Arbitrary<infer Start> ? Start : never): World {
  const world = [vera, olaf].reduce(
    (so, who) => done(so, { do: 'set skill', hand: vera, who, skill: 'Sewing', level: 3 }),
    worldOf(text(steps, rest), sets),
  );
  const signing = [vera, olaf].reduce<World>((so, who) => done(so, setPin(who)), { ...world, rule: 'supervisors' });
  return ['b', FRESH_TEXT].reduce((so, name) => withText(so, name, text(steps.slice(1), rest)), signing);
}

type Move = (world: World) => World;

/** Tries a command; whatever comes of it, it must not throw, and a refusal must leave everything as it was. */
const tries =
  (make: (world: World) => Parameters<typeof attempt>[1]): Move =>
  (world) => {
    const { world: after, result } = attempt(world, make(world));
    if (result.ok) expect(after.entries.length).toBeGreaterThan(world.entries.length);
    else expect(after).toBe(world);
    return after;
  };

/** A move that only makes sense when a point is wanted. */
const atPoint =
  (move: Move): Move =>
  (world) =>
    ready(world) && wants(world, world.bundle?.hand ?? ines).want === 'point' ? move(world) : world;

const ready = (world: World): boolean => world.bundle?.hand != null && situationOf(world).procedure !== undefined;
const owner = (world: World) => world.bundle?.hand ?? ines;

/** Works on as somebody would who knows the trade, so that the nonsense strikes at every stage. */
const worksOn: Move = (world) => {
  if (!ready(world)) return tries(() => open)(world);
  const wanted = wants(world, owner(world));
  if (wanted.want === 'resuming') return tries((w) => ({ hand: owner(w), do: 'resume' }))(world);
  if (wanted.want === 'changes')
    return tries((w) => ({ hand: owner(w), do: 'read changes', change: wanted.number, of: 2 }))(world);
  if (wanted.want !== 'point' && wanted.want !== 'caution' && wanted.want !== 'helping') return world;
  const witness = owner(world) === olaf ? vera : olaf;
  return tries((w) => onward(w, owner(w), witness))(patiently(world, owner(world)));
};

const sensible: fc.Arbitrary<Move> = fc
  .record({
    way: fc.constantFrom<SettleHow['as']>('rework', 'recut', 'concession', 'scrap'),
    to: fc.constantFrom(ines, jon, vera, olaf),
    by: fc.constantFrom(vera, olaf),
    back: fc.constantFrom('kit', 'mark', 'sew', 'tie'),
    set: fc.constantFrom(1, 2, 3),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .chain(({ way, to, by, back, set, share }) => {
    const hows = { rework: rework(back), recut: recut(back), concession: concession('2030-01-01'), scrap: scrap(set) };
    return fc.constantFrom<(world: World) => Command>(
      (w) => hold('point', owner(w)),
      (w) => hold('bundle', owner(w)),
      (w) => settle(hows[way], by, openName(w)),
      (w) => settle(hows[way], by, openName(w)),
      (w) => strike(Math.ceil(share * w.entries.length), owner(w)),
      (w) => strike(w.entries.length, owner(w)),
      (w) => ({ hand: owner(w), do: 'pause' }),
      (w) => handOver(to, owner(w)),
      () => resume(to),
      () => release('b'),
      () => signOn(to),
      () => ({ hand: to, do: 'print', what: 'label' }),
      (w) => finish(w.bundle ? setsLeft(w.bundle).length : 0, owner(w)),
    );
  })
  .map(tries);

const anyMove: fc.Arbitrary<Move> = fc.oneof(
  { weight: 10, arbitrary: fc.integer({ min: 1, max: 8 }).map(worksFor) },
  { weight: 6, arbitrary: sensible },
  { weight: 5, arbitrary: anyCommand.map((command) => tries(() => command)) },
  { weight: 3, arbitrary: fc.constantFrom('300', '320', 'off', '').map((typed) => atPoint(types(typed))) },
  { weight: 1, arbitrary: anySettling.map((how) => tries((w) => settle(how, vera, openName(w)))) },
  { weight: 1, arbitrary: fc.constant(tries((w) => ({ ...goBack(), hand: owner(w) }))) },
  { weight: 1, arbitrary: fc.integer({ min: -7_200_000, max: 7_200_000 }).map(wait) },
);

const openName = (world: World): string => (world.bundle && openHold(world.bundle)?.name) ?? 'none';
const types = (typed: string): Move => tries((world) => answer(typed, { by: owner(world) })(world));

/** A hand who was retired in the middle of it can't work on; then nobody does. */
const worksSafely: Move = (world) => (world.room.hands.get(owner(world))?.retired === false ? worksOn(world) : world);

function worksFor(times: number): Move {
  return (world) => Array.from({ length: times }).reduce<World>(worksSafely, world);
}

const fold = (entries: World['entries']) => entries.reduce(remembered, { ...emptyFold });
const emptyFold: World = {
  now: { ms: 0, offset: 0 },
  entries: [],
  texts: new Map(),
  room: emptyRoom,
  bundle: undefined,
  rule: 'nobody',
};

const soundly = (world: World): void => {
  const { bundle, procedure, now } = situationOf(world);
  if (!bundle || !procedure) return;
  for (const hand of [ines, jon, vera]) wants(world, hand);
  const { done, of } = progress(procedure, bundle);
  expect(done).toBeGreaterThanOrEqual(0);
  expect(done).toBeLessThanOrEqual(of);
  if (bundle.work === 'open' && bundle.hand && !openHold(bundle) && !bundle.changesToRead)
    expect(wants(world, bundle.hand).want === 'finish').toBe(done === of);
  for (const clock of bundle.clocks.values())
    expect(elapsedSeconds(clock, bundle.lastAt, now)).toBeGreaterThanOrEqual(0);
};

test('whatever anybody tries, nothing breaks, replaying gives the same and refuses nothing of it, and the bundle can be brought to an end', () => {
  fc.assert(
    fc.property(anyStart, fc.array(anyMove, { minLength: 10, maxLength: 60, size: 'max' }), (start, moves) => {
      let world = begun(start);
      const setUp = world.entries.length;
      for (const move of moves) {
        world = move(world);
        soundly(world);
      }
      const again = fold(world.entries);
      expect(again.bundle).toEqual(world.bundle);
      expect(again.room).toEqual(world.room);
      const written = JSON.parse(JSON.stringify(world.entries)) as World['entries'];
      const read = written.map((entry) => {
        const back = readEntry(entry);
        if (!back.ok) throw new Error(back.error.message);
        return back.value;
      });
      expect(fold(read).bundle).toEqual(world.bundle);

      const judge = replay((understood) => world.texts.get(understood));
      // This world does not remember other tickets, and makes them twice.
      const ours = world.entries.filter(({ body }) => !('ticket' in body) || body.ticket === TICKET);
      const judged = ours.map((entry) => ({ seq: entry.seq, ...judge.next(entry) }));
      // The room was set up before anybody had a PIN.
      expect(judged.filter(({ ok, seq }) => !ok && seq > setUp)).toEqual([]);

      const end = closed(world, 200);
      const { bundle } = end;
      expect(bundle?.work).toBe('finished');
      const { sets, good, scrapped, conceded, held } = bundle?.finished ?? {
        sets: -1,
        good: 0,
        scrapped: 0,
        conceded: 0,
        held: 0,
      };
      expect(good + scrapped).toBe(sets);
      expect(sets).toBe(bundle?.sets);
      expect(held).toBe(0);
      expect(conceded).toBeLessThanOrEqual(good);
    }),
    { numRuns: 400 },
  );
});

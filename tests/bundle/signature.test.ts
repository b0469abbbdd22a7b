import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import type { Command } from '../../src/bundle/command.ts';
import { secondsToWait } from '../../src/bundle/pin.ts';
import type { PinRule } from '../../src/bundle/signature.ts';
import { handOver, hold, open, resume, rework, setPin, settle, signOn, strike } from './deeds.ts';
import { answer, answered, given, upTo, wait } from './story.ts';
import { holdPoint, reading, step, text, tick } from './texts.ts';
import { gone, ines, jon, LIN, later, olaf, release, stranger, vera, type World, worldOf } from './world.ts';

const lining = text([step('sew', [tick('sewn'), reading('line', '312 ±1.5'), holdPoint('seen'), tick('tied')])]);

const failPin = (who: HandId = olaf): Command => ({ do: 'fail pin', hand: ines, who, for: 'settled' });
const asking =
  (rule: PinRule) =>
  (world: World): World => ({ ...world, rule });

/** A room that asks supervisors for their PIN, and Vera and Olaf have one. */
const room = [asking('supervisors'), setPin(vera), setPin(olaf)];
const held = [...room, open, upTo('line'), answered('320'), hold()];
const seqOf = (world: World, hand: HandId): number => world.room.pins.get(hand)?.seq ?? -1;

test('a supervisor settles, releases, withdraws, looks, and keeps the hands, with a PIN', () => {
  const settling = given(lining, ...held);
  settling.when(settle(rework('sew'))).leaves(['settled', { signed: true }]);
  settling.when(settle(rework('sew')), null).refused('pin-needed');
  settling.when(settle(rework('sew')), { hand: vera, pin: seqOf(settling.world, vera) }).refused('pin-needed');
  const looking = given(lining, ...room, open, upTo('seen'));
  looking.when(answer('', { witness: olaf })).leaves(['checked', { witness: olaf, signed: true }]);
  looking.when(answer('', { witness: olaf }), null).refused('pin-needed', /^Olaf signs/);
  const others: readonly Command[] = [
    release('b'),
    { do: 'withdraw', hand: vera, procedure: LIN, revision: 'A', reason: 'wrong limit' },
    { do: 'enrol', hand: vera, who: 'OP-50' as HandId, name: 'Yara', role: 'sewer' },
    { do: 'retire', hand: vera, who: jon },
    { do: 'set skill', hand: vera, who: jon, skill: 'binding', level: 3 },
  ];
  for (const command of others) {
    given(lining, ...room)
      .when(command, null)
      .refused('pin-needed');
    given(lining, ...room)
      .when(command)
      .leaves([expect.any(String) as never, { signed: true }]);
  }
});

test('what is not theirs to sign takes no PIN, and is not marked as signed', () => {
  const struck = given(lining, ...room, open, upTo('line'));
  const { entries } = struck.world;
  const last = entries.at(-1)?.seq ?? 0;
  struck.when(strike(last), null).leaves(['struck']);
  struck.when(strike(last, vera), null).refused('pin-needed');
  const after = struck.when(strike(last, vera)).leaves(['struck', { signed: true }]);
  expect(after.entries.find(({ kind }) => kind === 'checked')?.body).not.toHaveProperty('signed');
  given(lining, asking('nobody'), open, upTo('line'), answered('320'), hold())
    .when(settle(rework('sew')), null)
    .leaves(['settled']);
});

test('who has no PIN yet is told so, and sets the first one alone', () => {
  given(lining, asking('supervisors'), open, upTo('line'), answered('320'), hold())
    .when(settle(rework('sew')))
    .refused('pin-none', /walkfoot hand pin Olaf/);
  given(lining, asking('supervisors'))
    .when(setPin(vera), null)
    .leaves(['pin-set', { hand: vera }]);
  given(lining, ...room)
    .when(setPin(jon, vera))
    .refused('pin-own-first');
  given(lining, ...room)
    .when(setPin(stranger))
    .refused('hand-unknown');
  given(lining, ...room)
    .when(setPin(gone))
    .refused('hand-retired');
});

test('another PIN takes the one before, or that of a supervisor; what the one before proved is void', () => {
  const known = given(lining, ...room, setPin(jon));
  known.when(setPin(jon), null).refused('pin-needed');
  known.when(setPin(jon)).leaves(['pin-set', { hand: jon, signed: true }]);
  known.when(setPin(jon, ines)).refused('role');
  known.when(setPin(jon, vera), null).refused('pin-needed');
  const { world } = known;
  const after = known.when(setPin(jon, vera)).leaves(['pin-set', { hand: jon, signed: true }]);
  given(later(after, 60_000))
    .when(setPin(jon), { hand: jon, pin: seqOf(world, jon) })
    .refused('pin-needed');
});

test('a refusal for another reason comes first: nobody types a PIN for what may not be', () => {
  given(lining, ...held)
    .when(settle(rework('sew'), olaf, 'H-9'), null)
    .refused('no-such-hold');
  given(lining, ...room, open, upTo('seen'))
    .when(answer('', { witness: ines }), null)
    .refused('role');
});

test('where everybody has one, signing on takes it; otherwise only at a locked station, of who has one', () => {
  const everyone = given(lining, ...room, asking('everyone'), setPin(ines));
  everyone.when(signOn(), null).refused('pin-needed');
  everyone.when(signOn()).leaves(['signed-on', { signed: true }]);
  everyone.when(signOn(jon)).refused('pin-none');
  const some = given(lining, ...room, setPin(ines));
  some.when(signOn(), null).leaves(['signed-on']);
  some.when({ ...signOn(), do: 'sign on', after: 'own lock' }, null).refused('pin-needed');
  some.when({ ...signOn(), do: 'sign on', after: 'own lock' }).leaves(['signed-on', { after: 'lock', signed: true }]);
  some.when({ ...signOn(jon), do: 'sign on', after: 'lock of another' }, null).leaves(['signed-on']);
});

test('guessing is slowed: three slips, then half a minute, then twice as long each time', () => {
  const guessed = given(lining, ...held, failPin(), wait(-60_000), failPin(), wait(-60_000), failPin(), wait(-60_000));
  guessed.when(settle(rework('sew'))).refused('pin-wait', /wrong 3 times: wait 30 s/);
  const waited = given(guessed.world, wait(30_000));
  const after = waited
    .when(settle(rework('sew')))
    .leaves(['pin-proven', { hand: olaf }], ['settled', { signed: true }]);
  expect(after.room.wrongPins.has(olaf)).toBe(false);
  given(guessed.world, wait(29_999))
    .when(settle(rework('sew')))
    .refused('pin-wait', /wait 1 s/);
  // A wrong one of Olaf's is none of Vera's.
  guessed.when(settle(rework('sew'), vera)).leaves(['settled']);
});

test('one slip is forgotten with the next right one', () => {
  given(lining, ...held, failPin())
    .when(settle(rework('sew')))
    .leaves(['pin-proven'], ['settled']);
  given(lining, ...held, failPin(), setPin(olaf))
    .when(settle(rework('sew')))
    .leaves(['settled']);
  given(lining, ...held)
    .when(failPin(stranger))
    .refused('hand-unknown');
});

test.each([
  [0, 0],
  [2, 0],
  [3, 30],
  [4, 60],
  [5, 120],
  [7, 480],
  [8, 900],
  [1_000_000, 900],
])('after %i wrong PINs one waits %i s', (count, seconds) => {
  const now = { ms: Date.parse('2026-11-25T08:00:00Z'), offset: 0 };
  expect(secondsToWait({ count, lastAt: '2026-11-25T08:00:00Z' }, now)).toBe(seconds);
  expect(secondsToWait({ count, lastAt: '2026-11-25T08:00:00Z' }, { ...now, ms: now.ms + 900_000 })).toBe(0);
});

test('a clock that was set a year ahead and put right locks nobody out', () => {
  const now = { ms: Date.parse('2026-11-25T08:00:00Z'), offset: 0 };
  expect(secondsToWait({ count: 9, lastAt: '2027-11-25T08:00:00Z' }, now)).toBe(0);
});

test('being back after a lock is no new shift', () => {
  const world = worldOf(lining);
  const read = { ...world, room: { ...world.room, readThisShift: new Map([[ines, new Set(['x'])]]) } };
  const shift = (command: Command) => given(read).when(command).leaves(['signed-on']).room.readThisShift.get(ines);
  expect(shift({ do: 'sign on', hand: ines, after: 'own lock' })?.size).toBe(1);
  expect(shift({ do: 'sign on', hand: ines })?.size).toBe(0);
});

test('a retired hand neither signs on nor signs, whatever PIN they had; what they signed stays', () => {
  const signed = [...held, settle(rework('sew')), { do: 'retire', hand: vera, who: olaf } as const];
  const retired = given(lining, ...signed, hold('bundle'));
  const pin = { hand: olaf, pin: seqOf(retired.world, olaf) };
  retired.when(settle(rework('sew'), olaf, 'H-002'), pin).refused('hand-retired');
  retired.when(signOn(olaf), pin).refused('hand-retired');
  given(lining, ...room, { do: 'retire', hand: vera, who: olaf }, open, upTo('seen', { witness: vera }))
    .when(answer('', { witness: olaf }), pin)
    .refused('hand-retired');
  expect(retired.world.bundle?.holds[0]?.settled).toMatchObject({ by: olaf, signed: true });
});

test('nobody signs their own work, with whatever PIN: not after handing it over, striking it, or sending it back', () => {
  const shared = [...room, open, handOver(vera), resume(vera), answered('', { by: vera })];
  const struck = given(lining, ...shared, (world) =>
    given(world)
      .when(strike(world.entries.at(-1)?.seq ?? 0, vera))
      .leaves(['struck']),
  );
  const back = given(struck.world, handOver(ines, vera), resume(), upTo('line'), answered('320'), hold());
  back.when(settle(rework('sew'), vera)).refused('own-work');
  back.when(settle(rework('sew'), olaf)).leaves(['settled', { signed: true }]);
  const again = given(back.world, settle(rework('sew')), upTo('seen', { witness: olaf }));
  again.when(answer('', { witness: vera })).refused('own-work');
  again.when(answer('', { witness: olaf })).leaves(['checked', { witness: olaf, signed: true }]);
});

import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import { formatStamp } from '../../src/base/instant.ts';
import { allChecks } from '../../src/bundle/bundle.ts';
import type { Command } from '../../src/bundle/command.ts';
import { spent } from '../../src/bundle/spent.ts';
import { check, finish, hold, leave, note, open, rework, setPin, settle, startClock, strike } from './deeds.ts';
import { answer, given, upTo } from './story.ts';
import { holdPoint, step, text, tick, timed } from './texts.ts';
import { done, gone, ines, jon, LIN, later, olaf, release, vera, type World, wants, withText } from './world.ts';

const day = 24 * 3_600_000;
const plain = text([step('mark', [tick('marked'), tick('cut')])]);

/** The command as it stood on paper, `minutes` after the bundle's last entry; typed in the next day. */
const onPaper =
  (command: Command | ((world: World) => Command), minutes = 1, by: HandId = vera) =>
  (world: World): Command => {
    const lastAt = world.bundle?.lastAt ?? '';
    const ms = Date.parse(lastAt) + minutes * 60_000;
    const said = typeof command === 'function' ? command(world) : command;
    return { ...said, paper: { by, doneAt: formatStamp({ ms, offset: world.now.offset }) } };
  };
const did =
  (...args: Parameters<typeof onPaper>) =>
  (world: World): World =>
    done(world, onPaper(...args)(world));
const nextDay = (world: World): World => later(world, day);

test('what was done on paper says when it was done, when it was typed, and by whom', () => {
  const typed = given(plain, nextDay);
  typed.when(onPaper(open)).leaves(['opened', { paper: { by: vera } }]);
  const opened = given(typed.world, did(open, 5));
  const before = opened.world;
  opened.when(onPaper(answer(), 3)).leaves(['checked', { point: 'marked', paper: { by: vera } }]);
  const after = given(before, did(answer(), 3)).world;
  expect(after.bundle?.lastAt.slice(0, 16)).toBe(
    formatStamp({ ms: Date.parse(before.bundle?.lastAt ?? '') + 180_000, offset: before.now.offset }).slice(0, 16),
  );
});

test('the time between is that of the paper, not that of typing', () => {
  const before = given(plain, nextDay, did(open, 5)).world;
  const { paper } = onPaper(answer(), 3)(before);
  const entry = { kind: 'checked', at: formatStamp(before.now), body: { paper } } as never;
  expect(spent(before.bundle, entry)).toEqual({ work: 180_000, waiting: 0, pause: 0 });
});

test('a time that cannot be so is refused', () => {
  const typed = given(plain, nextDay, did(open));
  typed.when(onPaper(answer(), -5)).refused('paper-order', /would be earlier/);
  typed.when(onPaper(answer(), 2 * 24 * 60)).refused('paper-early');
  typed
    .when({ ...check('mark', 'marked', 1), paper: { by: vera, doneAt: '2026-11-24T25:00:00Z' } })
    .refused('paper-time');
});

test('only work stands on paper: nothing is settled, struck or released by it, and somebody of the room types', () => {
  const typed = given(plain, nextDay, did(open));
  typed.when(onPaper({ hand: vera, do: 'strike', entry: 9, reason: 'x' })).refused('not-on-paper');
  given(typed.world, hold())
    .when(onPaper(settle({ as: 'scrap', set: 1 })))
    .refused('not-on-paper');
  typed.when(onPaper({ hand: vera, do: 'retire', who: jon })).refused('not-on-paper');
  typed.when(onPaper(answer(), 1, gone)).refused('hand-retired');
});

test('whoever types signs at the beginning; a supervisor who did not sew it types in who looked at a hold point', () => {
  const looked = text([step('mark', [tick('marked'), holdPoint('looked')])]);
  const start = given(looked, (world) => ({ ...world, rule: 'supervisors' }), setPin(vera), setPin(olaf), nextDay);
  start.when(onPaper(open), null).refused('pin-needed');
  start.when(onPaper(open, 1, jon), null).refused('pin-none');
  const at = given(start.world, did(open), did(answer()));
  at.when(onPaper(answer('', { witness: olaf })), null).refused('pin-needed', /Vera signs/);
  at.when(onPaper(answer('', { witness: olaf }))).leaves([
    'checked',
    { witness: olaf, signed: true, paper: { by: vera } },
  ]);
  at.when(onPaper(answer('', { witness: olaf }), 1, jon), null).refused('role');
  at.when(onPaper(answer('', { witness: ines }))).refused('role');
  const own = given(start.world, did({ ...open, hand: vera }), did(answer('', { by: vera })));
  own.when(onPaper(answer('', { by: vera, witness: olaf }))).refused('paper-own');
});

test('a timed point is typed in as it was written, and judged', () => {
  const glued = text([step('glue', [timed('dry', 'min 10')])]);
  const at = given(glued, nextDay, did(open));
  at.when(onPaper(answer('12'))).leaves(['checked', { value: '12', unit: 'min', verdict: 'within' }]);
  at.when(onPaper(answer('8 min'))).leaves(['checked', { value: '8', verdict: 'below' }]);
  at.when(onPaper(answer(''))).refused('number-unreadable');
  at.when(onPaper(startClock('glue', 'dry'))).refused('not-on-paper');
});

test('the bundle goes on at the machine where the paper ended, and no paper comes behind that', () => {
  const back = given(plain, nextDay, did(open), did(answer()), did(leave));
  const machine = given(back.world, { hand: ines, do: 'resume' });
  machine.when(answer()).leaves(['checked', { point: 'cut' }]);
  const after = given(machine.world, upTo('finish'));
  after.when(onPaper(finish(2), -60)).refused('paper-order');
  after.when(finish(2)).leaves(['finished']);
});

/** The command with the time that the paper says. */
const at = (command: Command, doneAt: string): Command => ({ ...command, paper: { by: vera, doneAt } });
const stampAt = (ms: number): string => formatStamp({ ms, offset: 60 });
const minute = (stamp: string): number => Math.floor(Date.parse(stamp) / 60_000) * 60_000;

test('a blank form is typed in with its own times, though its ticket is made only afterwards', () => {
  const { world } = given(plain);
  const release = Date.parse(world.room.releases.get(LIN)?.[0]?.at ?? '');
  const begun = stampAt(release + 30_000);
  expect(Date.parse(begun)).toBeLessThan(Date.parse(world.bundle?.ticketedAt ?? ''));
  const start = given(world);
  start.when(at(open, stampAt(release - 120_000))).refused('no-release');
  const opened = given(start.when(at(open, begun)).leaves(['opened']));
  expect(opened.world.bundle?.openedAt).toBe(begun);
  const marked = given(opened.when(at(answer()(opened.world), begun)).leaves(['checked', { point: 'marked' }]));
  expect(marked.world.bundle && allChecks(marked.world.bundle)[0]?.at).toBe(begun);
});

test('paper tells the minute, and only work that was done bars what comes before it', () => {
  const start = given(plain, nextDay, did(open, 5), did(answer(), 3));
  const worked = start.world.bundle?.workedAt ?? '';
  const looked = given(start.world, { hand: ines, do: 'resume' }, note('where is E?'), leave);
  const same = stampAt(minute(worked));
  const on = given(looked.world, (world) => done(world, at({ hand: ines, do: 'resume' }, same)));
  on.when(at(answer()(on.world), same)).leaves(['checked', { point: 'cut' }]);
  on.when(at(answer()(on.world), stampAt(minute(worked) - 1))).refused('paper-order');
});

test('work on paper is by the text that the paper was of', () => {
  const hour = (world: World): World => later(world, 3_600_000);
  const twoTexts = withText(given(plain).world, 'b', plain);
  const blank = given(twoTexts, hour, release('b'), hour);
  const { now, room } = blank.world;
  const [first, second] = room.releases.get(LIN)?.map((each) => Date.parse(each.at)) ?? [];
  blank.when(at(open, stampAt((second ?? 0) - 120_000))).leaves(['opened', { revision: 'A' }]);
  blank.when(at(open, stampAt((second ?? 0) + 120_000))).leaves(['opened', { revision: 'B' }]);
  const printed = given(twoTexts, { hand: ines, do: 'print', what: 'sheet' }, hour, release('b'), hour);
  printed.when(at(open, stampAt(now.ms - 60_000))).leaves(['opened', { revision: 'A' }]);
  expect(first).toBeLessThan(second ?? 0);
  const withdraw: Command = { hand: vera, do: 'withdraw', procedure: LIN, revision: 'B', reason: 'lines wrong' };
  // Work that was begun before a revision was withdrawn was on that, whatever is in use since.
  given(blank.world, withdraw, release('a'), hour)
    .when(at(open, stampAt(now.ms - 1_800_000)))
    .leaves(['opened', { revision: 'B' }]);
});

test('on paper nobody reads what changed: that waits for them at the machine', () => {
  const twoTexts = withText(given(plain).world, 'b', plain);
  const sewnBefore = given(twoTexts, open, upTo('finish'), finish(2)).world;
  const sewn = given({ ...sewnBefore, bundle: given(plain).world.bundle }, release('b'), nextDay, did(open, 24 * 60));
  expect(wants(sewn.world)).toMatchObject({ want: 'point' });
  sewn.when(onPaper({ hand: ines, do: 'read changes', change: 1, of: 1 })).refused('not-on-paper');
  const machine = given(sewn.world, did(leave), { hand: ines, do: 'resume' });
  expect(wants(machine.world)).toMatchObject({ want: 'changes' });
});

test('a wrong time that is struck, and a hold that was settled since, bar nothing that was done before', () => {
  const typed = given(plain, nextDay, did(open, 5), did(answer(), 5 * 60));
  typed.when(onPaper(answer(), -3 * 60)).refused('paper-order');
  const struck = given(typed.world, strike(typed.world.entries.length));
  const opened = Date.parse(struck.world.bundle?.openedAt ?? '');
  struck.when(at(answer()(struck.world), stampAt(opened + 2 * 3_600_000))).leaves(['checked', { point: 'marked' }]);
  const settled = given(plain, open, (world) => later(world, 3_600_000), hold(), settle(rework('mark', 1)));
  const before = Date.parse(settled.world.bundle?.openedAt ?? '') + 60_000;
  const back = given(settled.world, (world) => done(world, at({ hand: ines, do: 'resume' }, stampAt(before))));
  back.when(at(answer()(back.world), stampAt(before))).leaves(['checked', { point: 'marked' }]);
});

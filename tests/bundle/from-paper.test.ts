import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import { formatStamp } from '../../src/base/instant.ts';
import type { Command } from '../../src/bundle/command.ts';

import { spent } from '../../src/bundle/spent.ts';
import { check, finish, hold, leave, open, setPin, settle, startClock } from './deeds.ts';
import { answer, given, upTo } from './story.ts';
import { holdPoint, step, text, tick, timed } from './texts.ts';
import { done, gone, ines, jon, later, olaf, vera, type World } from './world.ts';

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

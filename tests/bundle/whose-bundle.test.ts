import { expect, test } from 'vitest';
import { allChecks } from '../../src/bundle/bundle.ts';
import type { Command } from '../../src/bundle/command.ts';
import {
  check,
  finish,
  handOver,
  hold,
  leave,
  note,
  open,
  readChanges,
  resume,
  rework,
  scrap,
  settle,
  signOn,
  strike,
} from './deeds.ts';
import { answer, answered, given, upTo } from './story.ts';
import { computed, gap, reading, step, text, tick } from './texts.ts';
import {
  audit,
  digest,
  done,
  emptyWorld,
  gone,
  ines,
  jon,
  LIN,
  olaf,
  release,
  stranger,
  TICKET,
  vera,
  type World,
  wants,
  withText,
} from './world.ts';

const plain = text([step('mark', [tick('marked')]), step('sew', [reading('line', '312 ±1.5'), tick('sewn')])]);
const last = (world: World): number => world.entries.length;
const at = (kind: string, world: World): number => world.entries.findLast((entry) => entry.kind === kind)?.seq ?? -1;

test('a bundle is opened once, on the released text', () => {
  given(plain)
    .when(open)
    .leaves(['opened', { ticket: TICKET, procedure: LIN, revision: 'A', digest: digest('a') }]);
  given(plain, open).when(open).refused('opened-already');
  expect(wants(given(plain).world)).toEqual({ want: 'opening' });
});

test('a withdrawn revision is not opened, and the one before it does not come back by itself', () => {
  const withdraw = (revision: string): Command => ({
    hand: vera,
    do: 'withdraw',
    procedure: LIN,
    revision,
    reason: 'wrong spacing',
  });
  given(plain, withdraw('A')).when(open).refused('no-release');
  const two = withText(given(plain).world, 'b', plain);
  given(two, release('b'), withdraw('B')).when(open).refused('no-release');
  given(two, release('b'), withdraw('B'), release('a'))
    .when(open)
    .leaves(['opened', { revision: 'C' }]);
  given(two, open, withdraw('A'))
    .when(answer())
    .leaves(['checked', { digest: digest('a') }]);
});

test('there must be a ticket', () => {
  given(emptyWorld).when(open).refused('ticket-unknown');
});

test('nothing but opening is done before the bundle is opened', () => {
  for (const command of [resume(), resume(vera), handOver(jon), hold(), check('mark', 'marked', 1), finish(2)])
    given(plain).when(command).refused('not-opened');
  given(plain).when(leave).refused('not-at-work');
  given(plain).when(strike(1)).refused('nothing-to-strike');
  given(plain)
    .when(note('kit is damp'))
    .leaves(['noted', { set: null, step: null }]);
});

test('who leaves takes it up again; so may anybody, or a supervisor', () => {
  const left = given(plain, open, leave);
  expect(left.world.bundle).toMatchObject({ work: 'paused', hand: ines });
  expect(wants(left.world)).toEqual({ want: 'resuming' });
  for (const hand of [ines, jon, vera]) left.when(resume(hand)).leaves(['resumed', { digest: digest('a') }]);
  left.when(leave).refused('not-at-work');
  given(plain, open)
    .when({ ...leave, reason: 'lunch' })
    .leaves(['paused', { reason: 'lunch' }]);
});

test('a bundle in hand is taken by its own hand after a crash, by a supervisor, and by nobody else', () => {
  given(plain, open).when(resume()).leaves(['resumed']);
  given(plain, open)
    .when(resume(jon))
    .refused('with-another', /is with Ines: ask Ines/);
  given(plain, open).when(resume(vera)).leaves(['resumed']);
  given(plain, open, resume(vera))
    .when(answer('', { by: vera }))
    .leaves(['checked']);
  given(plain, open, resume(vera))
    .when(check('mark', 'marked', 1))
    .refused('not-at-work');
});

test('a bundle is handed over by its hand or a supervisor, to somebody who may work', () => {
  given(plain, open)
    .when(handOver(jon))
    .leaves(['handed-over', { to: jon }]);
  given(plain, open)
    .when(handOver(jon, vera))
    .leaves(['handed-over', { to: jon }]);
  given(plain, open, leave)
    .when(handOver(jon))
    .leaves(['handed-over', { to: jon }]);
  given(plain, open).when(handOver(ines, jon)).refused('has-it-already');
  given(plain, open).when(handOver(vera, jon)).refused('with-another');
  given(plain, open).when(handOver(audit)).refused('role');
  given(plain, open).when(handOver(gone)).refused('hand-retired');
  given(plain, open).when(handOver(stranger)).refused('hand-unknown');
});

test('what was handed over waits for the hand it was given to', () => {
  const over = given(plain, open, handOver(jon));
  over.when(check('mark', 'marked', 1)).refused('not-at-work');
  over.when(resume()).refused('with-another');
  over.when(resume(jon)).leaves(['resumed']);
  over.when(resume(olaf)).leaves(['resumed']);
});

test('unknown, retired and reading hands do nothing to a bundle', () => {
  const everything: readonly Command[] = [
    open,
    leave,
    resume(),
    handOver(jon),
    readChanges(),
    check('mark', 'marked', 1),
    strike(1),
    hold(),
    note('words'),
    finish(2),
    settle(scrap(1)),
  ];
  for (const command of everything) {
    given(plain)
      .when({ ...command, hand: stranger })
      .refused('hand-unknown');
    given(plain, open)
      .when({ ...command, hand: gone })
      .refused('hand-retired');
    given(plain, open)
      .when({ ...command, hand: audit })
      .refused('role', /Ada (?:only reads here|is no supervisor): this takes/);
  }
});

const twoTexts = withText(given(plain).world, 'b', text([step('mark', [tick('marked')])]));
const other = given(twoTexts, open, upTo('finish'), finish(2)).world;

test('who returns after a new revision reads the changes first', () => {
  const before = { ...other, bundle: given(plain).world.bundle };
  const back = given(before, release('b'));
  back.when(open).leaves(['opened', { revision: 'B', changedFrom: digest('a') }]);
  const opened = given(before, release('b'), open);
  expect(wants(opened.world)).toEqual({ want: 'changes', from: digest('a'), number: 1 });
  opened.when(check('mark', 'marked', 1)).refused('changes-first');
  opened.when(finish(2)).refused('changes-first');
  opened.when(readChanges()).leaves(['changes-read', { from: digest('a'), to: digest('b') }]);
  given(opened.world, readChanges()).when(readChanges()).refused('no-changes');
  given(opened.world, readChanges(), leave).when(resume()).leaves(['resumed']);
});

test('changes are read one by one, in their order, and whoever comes back goes on behind those that were read', () => {
  const before = { ...other, bundle: given(plain).world.bundle };
  const opened = given(before, release('b'), open);
  opened.when(readChanges(ines, 2, 3)).refused('changes-order');
  opened.when(readChanges(ines, 1, 0)).refused('changes-order');
  opened.when(readChanges(ines, 1, 3)).leaves(['changes-read', { change: 1, of: 3 }]);
  const one = given(opened.world, readChanges(ines, 1, 3));
  one.when(check('mark', 'marked', 1)).refused('changes-first');
  one.when(readChanges(ines, 1, 3)).refused('changes-order', /Change 2 is to be read next/);
  const back = given(one.world, leave, resume());
  expect(wants(back.world)).toEqual({ want: 'changes', from: digest('a'), number: 2 });
  const done = given(back.world, readChanges(ines, 2, 3), readChanges(ines, 3, 3));
  done.when(readChanges(ines, 4, 4)).refused('no-changes');
  expect(done.world.room.lastPlayed.get(ines)?.get(before.bundle?.procedure ?? ('' as never))).toBe(digest('b'));
});

test('where only a picture was drawn anew, whoever knew the old one is told too', () => {
  const before = { ...other, bundle: given(plain).world.bundle };
  const redrawn = { ...release('a'), understood: digest('e'), pictures: [{ address: 'a.svg', digest: digest('1') }] };
  const world = { ...before, texts: new Map(before.texts).set(digest('e'), plain) };
  const opened = given(world, redrawn, open);
  expect(opened.world.bundle?.changesToRead).toMatchObject({ from: digest('a') });
  opened.when(readChanges()).leaves(['changes-read', { from: digest('a'), to: digest('e') }]);
  const known = given(opened.world, readChanges()).world.room.lastPlayed;
  expect(known.get(ines)?.get(LIN)).toBe(digest('e'));
  given(opened.world, readChanges(), leave).when(resume()).leaves(['resumed']);
});

test('changes left unread come again, and only to the hand they are new to', () => {
  const before = { ...other, bundle: given(plain).world.bundle };
  const left = given(before, release('b'), open, leave);
  left.when(resume()).leaves(['resumed', { changedFrom: digest('a') }]);
  given(left.world, resume(jon))
    .when(check('mark', 'marked', 1, 1, jon))
    .leaves(['checked']);
  given(left.world, resume(jon)).when(readChanges(jon)).refused('no-changes');
  given(left.world).when(readChanges()).refused('not-at-work');
});

test('a bundle stays on the revision it was opened with', () => {
  given(twoTexts, open, release('b'), answered())
    .when(answer('312'))
    .leaves(['checked', { point: 'line', digest: digest('a') }]);
  const asOpened = { digest: digest('a'), understood: digest('a'), revision: 'A' };
  expect(given(twoTexts, open, release('b'), leave, resume()).world.bundle?.text).toEqual(asOpened);
  const again = { ...release('a'), understood: digest('e'), pictures: [{ address: 'a.svg', digest: digest('1') }] };
  expect(given(plain, open, again, leave, resume()).world.bundle?.text).toEqual(asOpened);
});

test('who recorded it strikes it, or a supervisor, with a reason', () => {
  const ticked = given(plain, open, answered());
  const entry = last(ticked.world);
  ticked.when(strike(entry)).leaves(['struck', { entry, reason: 'wrong key' }]);
  ticked.when(strike(entry, vera)).leaves(['struck', { entry }]);
  ticked.when(strike(entry, jon)).refused('not-your-entry');
  ticked.when(strike(entry, ines, ' ')).refused('reason-missing');
  ticked.when(strike(entry - 1)).refused('nothing-to-strike');
  given(ticked.world, hold()).when(strike(entry)).refused('on-hold');
  given(ticked.world, strike(entry)).when(strike(entry)).refused('nothing-to-strike');
});

test('what is struck stays readable, and is asked again', () => {
  const { world } = given(plain, open, answered());
  const struck = given(world, strike(last(world)));
  expect(struck.world.bundle && allChecks(struck.world.bundle)).toMatchObject([
    { struck: { reason: 'wrong key', by: ines } },
  ]);
  expect(wants(struck.world)).toMatchObject({ want: 'point', point: { id: 'marked' } });
  struck.when(answer()).leaves(['checked', { point: 'marked' }]);
});

test('a computed point falls with a reading it was worked out from, in that set', () => {
  const square = text([
    step('sew', [reading('a'), reading('b'), computed('g', gap('a', 'b')), computed('h', gap('g', 'a')), tick('end')]),
  ]);
  const { world } = given(square, open, upTo('end', { set: 2 }));
  const seqs = world.entries
    .filter((entry) => entry.kind === 'checked' && entry.body.set === 2)
    .map((entry) => entry.seq);
  const [a = 0, b = 0, g = 0, h = 0] = seqs;
  given(world)
    .when(strike(b))
    .leaves(['struck', { entry: b }], ['struck', { entry: g }], ['struck', { entry: h }]);
  given(world)
    .when(strike(g))
    .leaves(['struck', { entry: g }], ['struck', { entry: h }]);
  given(world)
    .when(strike(h))
    .leaves(['struck', { entry: h }]);
  given(given(world, strike(a)).world)
    .when(strike(g))
    .refused('nothing-to-strike');
});

test('what fell before does not fall again', () => {
  const square = text([step('sew', [reading('a'), computed('g', gap('a', 'a')), tick('end')])]);
  const { world } = given(square, open, answered('5'), answered());
  const again = given(world, strike(last(world) - 1), answered('6'), answered());
  const a = last(again.world) - 1;
  again.when(strike(a)).leaves(['struck', { entry: a }], ['struck', { entry: a + 1 }]);
});

test('a reading of the whole bundle takes the computed points of every set along', () => {
  const square = text([
    step('kit', [reading('a')], { scope: 'bundle' }),
    step('sew', [reading('b'), computed('g', gap('a', 'b')), tick('end')]),
  ]);
  const { world } = given(square, open, upTo('end', { set: 2 }));
  const [a = 0] = world.entries.filter((entry) => entry.kind === 'checked').map((entry) => entry.seq);
  given(world)
    .when(strike(a))
    .leaves(['struck'], ['struck', { reason: expect.stringContaining('struck reading') }], ['struck']);
});

test('a note keeps its place', () => {
  given(plain, open, answered())
    .when(note('thread frays'))
    .leaves(['noted', { set: 1, step: 'sew', text: 'thread frays' }]);
  given(plain, open).when(note('  ')).refused('note-empty');
});

test('finishing takes every point done, and a count that balances', () => {
  given(plain, open).when(finish(2)).refused('not-done');
  const all = given(plain, open, upTo('finish'));
  for (const wrong of [1, 3, 0, -2, 1.5, Number.NaN])
    all.when(finish(wrong)).refused('count-balance', /be 2 good sets, and you counted/);
  all.when(finish(2)).leaves(['finished', { sets: 2, good: 2, conceded: 0, scrapped: 0, held: 0 }]);
  all.when(finish(2, jon)).refused('not-at-work');
  given(all.world, leave).when(finish(2)).refused('not-at-work');
  given(all.world, hold()).when(finish(2)).refused('on-hold');
});

test('what is finished stays as it is', () => {
  const { world } = given(plain, open, upTo('finish'), finish(2));
  expect(world.bundle).toMatchObject({ work: 'finished', finished: { good: 2 } });
  expect(wants(world)).toEqual({ want: 'nothing' });
  const everything = [
    open,
    leave,
    resume(),
    handOver(jon),
    readChanges(),
    strike(at('checked', world)),
    hold(),
    note('x'),
    finish(2),
  ];
  for (const command of [...everything, settle(rework('sew')), check('mark', 'marked', 1)])
    given(world).when(command).refused('finished');
  expect(done(world, signOn()).bundle).toBe(world.bundle);
});

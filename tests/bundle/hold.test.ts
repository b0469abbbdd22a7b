import { expect, test } from 'vitest';
import { replay } from '../../src/bundle/replay.ts';
import {
  check,
  concession,
  finish,
  handOver,
  hold,
  leave,
  open,
  recut,
  resume,
  rework,
  scrap,
  settle,
} from './deeds.ts';
import { answered, given, upTo } from './story.ts';
import { holdPoint, reading, step, text, tick } from './texts.ts';
import { ines, jon, olaf, vera, wants } from './world.ts';

const lining = text([
  step('kit', [tick('counted')], { scope: 'bundle' }),
  step('mark', [tick('marked')]),
  step('sew', [reading('line', '312 ±1.5', { places: 2 }), tick('sewn')]),
  step('tie', [tick('tied')], { scope: 'bundle' }),
]);
const outside = [open, upTo('line'), answered('320')];
const held = [...outside, hold()];

test('a hold stops the bundle where it is, for everybody', () => {
  given(lining, ...outside)
    .when(hold())
    .leaves(['held', { hold: 'H-001', set: 1, step: 'sew', point: 'line', reason: 'a hole' }]);
  given(lining, ...outside)
    .when(hold('bundle'))
    .leaves(['held', { set: 1, step: 'sew', point: null }]);
  given(lining, ...outside)
    .when(hold('bundle', jon))
    .leaves(['held']);
  given(lining, ...outside, leave)
    .when(hold('bundle', vera))
    .leaves(['held']);
  given(lining, ...outside)
    .when({ ...hold(), reason: '' })
    .refused('reason-missing');
  given(lining, ...held)
    .when(hold())
    .refused('on-hold');
  given(lining, ...held)
    .when(check('sew', 'line', 1))
    .refused('on-hold');
  expect(wants(given(lining, ...held).world)).toMatchObject({ want: 'settling', hold: { name: 'H-001' } });
});

test('holds are numbered through the room, or named', () => {
  const settled = [...held, settle(rework('sew'))];
  given(lining, ...settled)
    .when(hold())
    .leaves(['held', { hold: 'H-002' }]);
  given(lining, ...outside)
    .when(hold('point', ines, 'H-031'))
    .leaves(['held', { hold: 'H-031' }]);
  given(lining, ...outside)
    .when(hold('point', ines, '  '))
    .leaves(['held', { hold: 'H-001' }]);
  given(lining, ...settled)
    .when(hold('point', ines, 'H-001'))
    .refused('hold-taken');
});

test('a number that somebody made up does not lead the counting astray', () => {
  const named = given(lining, open, hold('bundle', ines, 'H-1000000000'), settle(rework('kit'), olaf, 'H-1000000000'));
  named.when(hold('bundle')).leaves(['held', { hold: 'H-001' }]);
});

test('only a supervisor settles, the hold that is open, with a reason, and not on their own work', () => {
  const stopped = given(lining, ...held);
  stopped.when(settle(rework('sew'), jon)).refused('role');
  stopped.when(settle(rework('sew'), olaf, 'H-009')).refused('no-such-hold');
  given(lining, ...outside)
    .when(settle(rework('sew')))
    .refused('no-such-hold');
  stopped.when({ ...settle(rework('sew')), reason: ' ' }).refused('reason-missing');
  const own = given(
    lining,
    open,
    upTo('marked'),
    handOver(vera),
    resume(vera),
    answered('', { by: vera }),
    hold('point', vera),
  );
  own.when(settle(rework('mark'), vera)).refused('own-work');
  own.when(settle(rework('mark', 2), vera)).refused('own-work');
  own.when(settle(scrap(2), vera)).refused('own-work');
  own.when(settle(rework('mark', 2), olaf)).leaves(['settled', { set: 2 }]);
});

test('who worked anywhere in the bundle doesn’t settle a hold on the whole of it', () => {
  const own = [
    open,
    upTo('marked'),
    handOver(vera),
    resume(vera),
    answered('', { by: vera }),
    handOver(ines, vera),
    resume(),
  ];
  given(lining, ...own, upTo('tied'), hold())
    .when(settle(rework('mark'), vera))
    .refused('own-work');
  given(lining, ...own, upTo('tied'), hold())
    .when(settle(rework('mark'), olaf))
    .leaves(['settled', { set: null }]);
});

test('rework sends the set back to a step, never forward over work not done', () => {
  const stopped = given(lining, ...held);
  const back = stopped
    .when(settle(rework('mark')))
    .leaves(['settled', { how: { as: 'rework', again: ['mark', 'sew', 'tie'] } }]);
  expect(wants(back)).toMatchObject({ want: 'point', at: { set: 1 }, point: { id: 'marked' } });
  stopped.when(settle(rework('tie'))).refused('rework-forward');
  stopped.when(settle(rework('nowhere'))).refused('no-such-step');
  stopped.when(settle(rework('sew', 3))).refused('no-such-set');
  stopped.when(settle(rework('sew', 0))).refused('no-such-set');
  stopped.when(settle(rework('sew', 1.5))).refused('no-such-set');
});

test('rework of the whole bundle asks every set again, rework of one only that set and what is for all', () => {
  const tied = given(lining, open, upTo('tied'), hold());
  const all = tied.when(settle(rework('mark'))).leaves(['settled', { set: null }]);
  expect(wants(all)).toMatchObject({ at: { set: 1 }, point: { id: 'marked' } });
  const second = tied.when(settle(rework('sew', 2))).leaves(['settled', { set: 2 }]);
  expect(wants(second)).toMatchObject({ at: { set: 2 }, point: { id: 'line' } });
});

test('recut names the piece and the new piece', () => {
  const stopped = given(lining, ...held);
  stopped
    .when(settle(recut('mark')))
    .leaves(['settled', { how: { as: 'recut', piece: 'C', newPiece: 'C-R1', roll: 'R-322' } }]);
  stopped.when(settle(recut('mark', ''))).refused('piece-name');
  stopped.when(settle(recut('mark', 'C'))).refused('piece-name');
  stopped.when(settle(recut('tie'))).refused('rework-forward');
});

test('what is recut is a piece of the kit or was cut anew for one, in whatever case it is typed', () => {
  const kitted = text(lining.steps, { kit: ['A', 'C'].map((id) => ({ id, words: 'panel', count: 1, side: null })) });
  const stopped = given(kitted, ...held);
  const of = (piece: string, newPiece: string, name?: string) =>
    settle({ ...recut('mark', newPiece), piece }, undefined, name);
  stopped.when(of('XX', 'XX-R1')).refused('no-such-piece', /B-1041 has no piece XX: name one of A, C\.$/);
  const first = stopped.when(of('c', 'C-R1')).leaves(['settled', { how: { piece: 'C', kit: 'C', newPiece: 'C-R1' } }]);

  const again = given(first, upTo('line'), answered('320'), hold());
  again.when(of('c-r1', 'C-R2', 'H-002')).leaves(['settled', { how: { piece: 'C-R1', kit: 'C', newPiece: 'C-R2' } }]);
  again.when(of('C-R9', 'C-R10', 'H-002')).refused('no-such-piece', /name one of A, C, C-R1\.$/);
});

test('a ledger from before kits were asked is still as the rules have it', () => {
  const kitted = text(lining.steps, { kit: [{ id: 'A', words: 'panel', count: 1, side: null }] });
  const unasked = settle({ ...recut('mark', 'XX-R1'), piece: 'XX', kit: 'not asked' });
  const { entries } = given(kitted, ...held, unasked).world;
  expect(entries.at(-1)?.body).toMatchObject({ how: { piece: 'XX', newPiece: 'XX-R1' } });
  const again = replay(() => kitted, 'nobody');
  expect(entries.map((entry) => again.next(entry).ok)).toEqual(entries.map(() => true));
});

test('a concession carries its limit and its last day', () => {
  const stopped = given(lining, ...held);
  stopped
    .when(settle(concession()))
    .leaves(['settled', { how: { as: 'concession', name: 'K-001', limit: 'one panel', expires: '2026-12-31' } }]);
  stopped.when(settle({ ...concession(), name: 'K-017' })).leaves(['settled', { how: { name: 'K-017' } }]);
  stopped.when(settle(concession('2026-11-25'))).leaves(['settled']);
  stopped.when(settle(concession('2026-11-24'))).refused('concession-expired');
  for (const day of ['', 'soon', '2026-02-31', '2026-13-01', '31.12.2026'])
    stopped.when(settle(concession(day))).refused('concession-expiry');
  stopped.when(settle(concession('2026-12-31', ' '))).refused('concession-limit');
});

test('a concession lets the held blank through and nothing else: the other places are still measured', () => {
  const through = given(lining, ...held, settle(concession()));
  expect(wants(through.world)).toMatchObject({ want: 'point', at: { set: 1 }, point: { id: 'line' }, place: 2 });
  expect(wants(given(through.world, answered('320')).world)).toMatchObject({ place: 2, outside: { value: '320' } });
  expect(wants(given(through.world, answered('312')).world)).toMatchObject({ point: { id: 'sewn' } });
  expect(wants(given(through.world, upTo('line', { set: 2 })).world)).toMatchObject({ want: 'point', at: { set: 2 } });
  given(through.world, upTo('finish'))
    .when(finish(2))
    .leaves(['finished', { good: 2, conceded: 1, scrapped: 0 }]);
});

test('concessions are numbered through the room', () => {
  const second = [...held, settle(concession()), upTo('line', { set: 2 }), hold()];
  given(lining, ...second)
    .when(settle(concession(), olaf, 'H-002'))
    .leaves(['settled', { how: { name: 'K-002' } }]);
});

test('a concession about the bundle lets no point through', () => {
  const through = given(lining, ...outside, hold('bundle'), settle(concession()));
  expect(wants(through.world)).toMatchObject({ point: { id: 'line' }, outside: { value: '320' } });
  given(through.world, upTo('finish'))
    .when(finish(2))
    .leaves(['finished', { conceded: 1 }]);
});

test('a concession on a step of the whole bundle is one on each of its sets', () => {
  given(lining, open, upTo('tied'), hold(), settle(concession()))
    .when(finish(2))
    .leaves(['finished', { good: 2, conceded: 2 }]);
});

test('rework after a concession takes it away', () => {
  const again = given(lining, ...held, settle(concession()), hold('bundle'), settle(rework('sew'), olaf, 'H-002'));
  expect(wants(again.world)).toMatchObject({ point: { id: 'line' }, outside: null });
  given(again.world, upTo('finish'))
    .when(finish(2))
    .leaves(['finished', { conceded: 0 }]);
});

test('scrap ends a set, and the count at the finish says so', () => {
  const scrapped = given(lining, ...held, settle(scrap(1)));
  expect(wants(scrapped.world)).toMatchObject({ at: { set: 2 }, point: { id: 'marked' } });
  scrapped.when(check('sew', 'line', 1)).refused('not-next');
  const rest = given(scrapped.world, upTo('finish'));
  rest.when(finish(2)).refused('count-balance', /Of 2 sets 1 scrapped leaves 1, and you counted 2/);
  rest.when(finish(1)).leaves(['finished', { sets: 2, good: 1, conceded: 0, scrapped: 1, held: 0 }]);
  given(rest.world, hold())
    .when(settle(scrap(1), olaf, 'H-002'))
    .refused('no-such-set');
});

test('when every set is scrapped there is nothing left but to finish with none', () => {
  const none = given(lining, ...held, settle(scrap(1)), hold(), settle(scrap(2), olaf, 'H-002'));
  expect(wants(none.world)).toEqual({ want: 'finish' });
  none.when(finish(0)).leaves(['finished', { sets: 2, good: 0, scrapped: 2 }]);
});

test('a set conceded and then scrapped counts as scrapped', () => {
  given(lining, ...held, settle(concession()), hold(), settle(scrap(1), olaf, 'H-002'), upTo('finish'))
    .when(finish(1))
    .leaves(['finished', { good: 1, conceded: 0, scrapped: 1 }]);
});

test('a bundle on hold may be left, handed over and taken up, and stays on hold', () => {
  const over = given(lining, ...held, leave, handOver(jon), resume(jon));
  expect(wants(over.world, jon)).toMatchObject({ want: 'settling' });
  over.when(settle(rework('sew'))).leaves(['settled']);
});

test('a hold point waits for no hold: it is held and settled like any other', () => {
  const seen = text([step('sew', [holdPoint('seen')])]);
  const through = given(seen, open, hold(), settle(concession()));
  expect(wants(through.world)).toMatchObject({ at: { set: 2 } });
});

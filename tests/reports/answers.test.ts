import { expect, test } from 'vitest';
import { concessions, openHolds } from '../../src/reports/open-matters.ts';
import { passedOperation } from '../../src/reports/passed-operation.ts';
import { type Past, pastOf } from '../../src/reports/past.ts';
import { repeated } from '../../src/reports/repeated.ts';
import { sewnOn } from '../../src/reports/sewn-on.ts';
import { usedRoll } from '../../src/reports/used-roll.ts';
import { type WhoRow, whoRows } from '../../src/reports/who.ts';
import {
  concession,
  goBack,
  handOver,
  hold,
  open,
  recut,
  resume,
  rework,
  scrap,
  settle,
  strike,
} from '../bundle/deeds.ts';
import { answered, given } from '../bundle/story.ts';
import { reading, step, text, tick, written } from '../bundle/texts.ts';
import { jon, LIN, type World } from '../bundle/world.ts';

const sewing = text([step('line', [reading('m', '3 ±1', { places: 2 }), tick('drawn')], { backTo: 'line' })], {
  sets: 1,
});

const pastIn = ({ entries, room, texts }: World): Past => pastOf(entries, { room, texts });
const rowsIn = (world: World): readonly WhoRow[] => whoRows(pastIn(world));

const repeatedIn = (world: World): readonly string[] =>
  repeated(rowsIn(world)).map(
    ({ point, place, value, before, struck }) =>
      `${point} ${place}: ${value}, ${struck === null ? '' : `struck for ${struck}, `}before ${before?.replace(/entry \d+/, 'entry n')}`,
  );

/** The seq of the last entry. */
const last = (world: World): number => world.entries.at(-1)?.seq ?? 0;

test('a reading that was struck says so until it is given again; then the new one says what it said', () => {
  const read = given(sewing, open, answered('3.5')).world;
  const struck = given(read, strike(last(read))).world;
  expect(repeatedIn(read)).toEqual([]);
  expect(repeatedIn(struck)).toEqual(['m 1: 3.5, struck for wrong key, before undefined']);
  expect(repeatedIn(given(struck, answered('3.2')).world)).toEqual([
    'm 1: 3.2, before 3.5 mm (entry n, Ines; struck: wrong key)',
  ]);
});

test('a reading out of its limit that is taken again says by how much it was out', () => {
  expect(repeatedIn(given(sewing, open, answered('5'), answered('1'), answered('3')).world)).toEqual([
    'm 1: 1, before 5 mm, 1 mm above (entry n, Ines; measured again)',
    'm 1: 3, before 1 mm, 1 mm below (entry n, Ines; measured again)',
  ]);
});

test('where the work went back only what was given again is repeated', () => {
  const back = given(sewing, open, answered('3'), answered('9'), goBack()).world;
  expect(repeatedIn(back)).toEqual([]);
  expect(repeatedIn(given(back, answered('2.5')).world)).toEqual([
    'm 1: 2.5, before 3 mm (entry n, Ines; the work went back)',
  ]);
});

test('one set does not repeat another, nor one place another', () => {
  const { world } = given(text(sewing.steps), open, answered('3'), answered('3'), answered(), answered('2'));
  expect(repeatedIn(world)).toEqual([]);
});

test('a roll is used by its ticket, by a piece recut from it, and by who wrote it down', () => {
  const asks = text([step('kit', [written('roll'), tick('cut')])], { sets: 1 });
  const { world } = given(asks, open, answered('R-900'), hold('bundle'), settle(recut('kit')));
  const found = (roll: string) => usedRoll(rowsIn(world), pastIn(world), roll).map(({ kind }) => kind);
  expect(found('r-318 ')).toEqual(['ticketed']);
  expect(found('R-322')).toEqual(['settled']);
  expect(found('R-900')).toEqual(['checked']);
  expect(found('R-31')).toEqual([]);
});

test('a hold is open until it is settled', () => {
  const held = given(sewing, open, hold()).world;
  expect(openHolds(rowsIn(held), pastIn(held)).map(({ value }) => value)).toEqual(['H-001: a hole']);
  const { world } = given(held, settle(rework('line')));
  expect(openHolds(rowsIn(world), pastIn(world))).toEqual([]);
});

test('a concession is in force to the end of its last day, and ends with its set or when the work goes back', () => {
  const worth = (world: World, today: string) =>
    concessions(rowsIn(world), pastIn(world), today).map(({ limit, expires, verdict }) => [limit, expires, verdict]);
  const through = given(text(sewing.steps), open, answered('9'), hold(), settle(concession())).world;
  expect(worth(through, '2026-12-31')).toEqual([['one panel', '2026-12-31', 'in force']]);
  expect(worth(through, '2027-01-01')).toEqual([['one panel', '2026-12-31', 'expired']]);
  const again = given(through, hold('bundle', undefined, 'H-2'));
  expect(worth(given(again.world, settle(rework('line'), undefined, 'H-2')).world, '2026-12-31')[0]?.[2]).toBe(
    'work went back',
  );
  expect(worth(given(again.world, settle(scrap(1), undefined, 'H-2')).world, '2026-12-31')[0]?.[2]).toBe('scrapped');
});

test('a bundle is sewn on the revision it was opened on', () => {
  const { world } = given(sewing, open);
  const on = (procedure: string, revision: string | null) =>
    sewnOn(rowsIn(world), pastIn(world), { procedure, revision }).map(({ kind }) => kind);
  expect(on(LIN, 'A')).toEqual(['opened']);
  expect(on(LIN, null)).toEqual(['opened']);
  expect(on(LIN, 'B')).toEqual([]);
  expect(on('CUS-0412', null)).toEqual([]);
});

const passedIn = (world: World) =>
  passedOperation(rowsIn(world), pastIn(world), ({ id }) => id === 'line').map(
    ({ set, name, value, verdict, took }) => `set ${set}: ${name}, ${value}, ${verdict}, ${took} s`,
  );

test('an operation is passed when its last answer is given, not before, and set by set', () => {
  const all = given(text(sewing.steps), open, answered('3'), answered('3')).world;
  expect(passedIn(all)).toEqual([]);
  const first = given(all, answered()).world;
  expect(passedIn(first)).toEqual(['set 1: Ines, 3 of 3 answers, passed, 180 s']);
  expect(passedIn(given(first, answered('3'), answered('3'), answered()).world)).toEqual([
    'set 1: Ines, 3 of 3 answers, passed, 180 s',
    'set 2: Ines, 3 of 3 answers, passed, 180 s',
  ]);
});

test('who shared an operation stands there with what was theirs', () => {
  const { world } = given(
    sewing,
    open,
    answered('3'),
    handOver(jon),
    resume(jon),
    answered('3', { by: jon }),
    answered('', { by: jon }),
  );
  expect(passedIn(world)).toEqual([
    'set 1: Ines, 1 of 3 answers, passed, 60 s',
    'set 1: Jon, 2 of 3 answers, passed, 120 s',
  ]);
});

test('what is out of its limit passes by concession only; what is scrapped or asked again passes not at all', () => {
  const held = given(text(sewing.steps), open, answered('3'), answered('9'), hold()).world;
  expect(passedIn(held)).toEqual([]);
  const through = given(held, settle(concession()), answered()).world;
  expect(passedIn(through)).toEqual(['set 1: Ines, 3 of 3 answers, passed by concession, 180 s']);
  const again = given(through, hold('bundle', undefined, 'H-2')).world;
  expect(passedIn(given(again, settle(rework('line', 1), undefined, 'H-2')).world)).toEqual([]);
  expect(passedIn(given(again, settle(scrap(1), undefined, 'H-2')).world)).toEqual([]);
});

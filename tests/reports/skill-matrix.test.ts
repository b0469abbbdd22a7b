import { expect, test } from 'vitest';
import { columns } from '../../src/base/columns.ts';
import { skillCsv } from '../../src/reports/skill-csv.ts';
import { aloneAt, besideAt, type Doing, nextAt, type Operation } from '../../src/reports/skill-matrix.ts';
import { skillReport } from '../../src/reports/skill-report.ts';

const doing = (name: string, level: Doing['level'], rest: Partial<Doing> = {}): Doing => ({
  hand: name.toUpperCase() as Doing['hand'],
  name,
  level,
  isEntered: true,
  lastDay: null,
  ...rest,
});
const operation = (skill: string, ...hands: readonly Doing[]): Operation => ({
  skill,
  steps: [{ procedure: 'LIN-2207', step: 9 }],
  hands,
});
const said = (operations: readonly Operation[], width = 60, today = '2026-11-25'): string =>
  skillReport(operations, today, width).join('\n');

test('from level 3 on a hand is alone, below it somebody is beside, and one short of it is trained next', () => {
  const all = operation('vinyl', ...([0, 1, 2, 3, 4] as const).map((level) => doing(`h${level}`, level)));
  expect(aloneAt(all).map(({ name }) => name)).toEqual(['h3', 'h4']);
  expect(besideAt(all).map(({ name }) => name)).toEqual(['h0', 'h1', 'h2']);
  expect(nextAt(all).map(({ name }) => name)).toEqual(['h2']);
  expect(said([all])).toContain('train next:   h2, whom h4 can teach');
});

test('an operation that hangs on one hand or on none is told, one that two do is not', () => {
  expect(said([operation('vinyl', doing('Ines', 4), doing('Tomas', 2))])).toContain('! Only Ines does vinyl alone.');
  expect(said([operation('vinyl', doing('Tomas', 2))])).toContain('! Nobody does vinyl alone');
  expect(said([operation('vinyl', doing('Ines', 4), doing('Tomas', 3))])).not.toContain('!');
});

test.each([
  ['2026-05-24', true],
  ['2026-05-25', false],
  ['2026-11-24', false],
])('who did it last on %s is to be looked at again on 2026-11-25: %s', (lastDay, isLong) => {
  const hands = [doing('Ines', 4, { lastDay }), doing('Tomas', 3)];
  expect(said([operation('vinyl', ...hands)]).includes('Ines did vinyl last on')).toBe(isLong);
});

test('the day of a month that is too short for it, and January, are six months before too', () => {
  const old = operation('vinyl', doing('Ines', 4, { lastDay: '2026-02-28' }), doing('Tomas', 3));
  expect(said([old], 60, '2026-08-31')).toContain('last on 2026-02-28');
  const lately = operation('vinyl', doing('Ines', 4, { lastDay: '2025-08-01' }), doing('Tomas', 3));
  expect(said([lately], 60, '2026-01-31')).not.toContain('last on 2025-08-01: look');
});

test('who nobody judged counts as 0 and is told from who was entered as 0', () => {
  const text = said([operation('vinyl', doing('Ines', 0), doing('Piet', 0, { isEntered: false }))]);
  expect(text).toContain('with another: Ines 0, Piet -');
});

test('a table where it fits whole, blocks where it does not, and never a line too wide', () => {
  const long = 'a very long name that no column holds '.repeat(3);
  const operations = [
    operation('top-stitch vinyl', doing('Ines', 4), doing(long, 2)),
    operation('a\u001b[2Jb '.repeat(20), doing('Ines', 4), doing(long, 2)),
  ];
  for (const width of [20, 60, 80, 120, 400])
    for (const line of skillReport(operations, '2026-11-25', width)) {
      expect(columns(line)).toBeLessThanOrEqual(width);
      expect(line).not.toMatch(/[\u0000-\u001f]/);
    }
  expect(said([operation('a', doing('Ines', 4)), operation('b', doing('Ines', 1))], 30)).toMatch(/^ +a {2}b\n/);
});

test('nothing asked for and nothing entered says what to write', () => {
  expect(said([])).toContain('Needs skill: WORDS');
});

test('a spreadsheet gets a row for each hand and operation, and runs nothing', () => {
  const rows = skillCsv([
    operation('=cmd', doing('Ines', 4, { lastDay: '2026-11-25' }), doing('Piet', 0, { isEntered: false })),
  ]);
  expect(rows.split('\r\n')).toEqual([
    'skill,hand,name,level,words,sews,next,last',
    "'=cmd,INES,Ines,4,can teach,alone,,2026-11-25",
    "'=cmd,PIET,Piet,,none,with somebody beside,,",
    '',
  ]);
});

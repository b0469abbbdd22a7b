import { expect, test } from 'vitest';
import { columns } from '../../src/base/columns.ts';
import { duration } from '../../src/base/duration.ts';
import { pastOf } from '../../src/reports/past.ts';
import { stepParts, stepText } from '../../src/reports/step-text.ts';
import { whoRows } from '../../src/reports/who.ts';
import { whoReport } from '../../src/reports/who-report.ts';
import { hold, open } from '../bundle/deeds.ts';
import { answered, given } from '../bundle/story.ts';
import { choice, reading, step, text } from '../bundle/texts.ts';

const { entries, room, texts } = given(
  text([step('sew', [reading('m', '3 ±1')])]),
  open,
  answered('31.2 cm'),
  hold(),
).world;
const rows = whoRows(pastOf(entries, { room, texts })).filter(({ ticket }) => ticket !== null);

test('as a table every row is one line with its columns, and says what was no answer at its end', () => {
  expect(whoReport(rows, null)).toEqual([
    'ticket  set  step   point  hand  at                         took  value  unit  limit      verdict  revision  seq  also',
    '──────  ───  ─────  ─────  ────  ─────────────────────────  ────  ─────  ────  ─────────  ───────  ────────  ───  ───────────────────────────────────────',
    'B-1041                     Vera  2026-11-25T08:08:00+01:00                                                     9  ticketed: LIN-2207, 2 sets, rolls R-318',
    'B-1041                     Ines  2026-11-25T08:09:00+01:00  0:00                                   A          10  opened: revision A; lay 1:00',
    'B-1041    1  1 sew  m      Ines  2026-11-25T08:10:00+01:00  1:00    312  mm    2 to 4 mm  above    A          11  308 mm above; typed 31.2 cm',
    'B-1041    1  1 sew  m      Ines  2026-11-25T08:11:00+01:00  1:00                                   A          12  held: H-001: a hole',
  ]);
});

test('a terminal that is wide enough has the table, a narrower one lines in which nothing is cut', () => {
  const table = whoReport(rows, null);
  const needs = Math.max(...table.map(columns));
  expect(whoReport(rows, needs)).toEqual(table);
  const lines = whoReport(rows, needs - 1);
  expect(lines[0]).toBe('B-1041 · 2026-11-25');
  for (const width of [60, 80, needs - 1])
    expect(Math.max(...whoReport(rows, width).map(columns))).toBeLessThanOrEqual(width);
  expect(whoReport(rows, 80).join('')).not.toContain('…');
});

test.each([
  [null, ''],
  [0, '0:00'],
  [38.9, '0:38'],
  [725, '12:05'],
  [3725, '1:02:05'],
  [90_000, '25:00:00'],
])('%s seconds are shown as %s', (seconds, shown) => {
  expect(duration(seconds)).toBe(shown);
});

test('a step’s words are shown with what a terminal would obey in them as marks', () => {
  const hostile = { ...step('sew', [choice('seam', '*closed', 'open')]), prose: 'Sew\u001b[2J on.\u202e' };
  const said = stepText(stepParts(hostile));
  expect(said).not.toMatch(/[\u001b\u202e]/);
  expect(said).toContain('Sew');
});

test('points are shown with their blanks and limits', () => {
  const parts = stepParts(step('sew', [reading('m', '3 ±1', { places: 3 }), reading('free')]));
  expect(stepText(parts).split('\n').slice(-2)).toEqual([
    '- reading: m (3 places, 2 to 4 mm)',
    '- reading: free (mm, not judged)',
  ]);
});

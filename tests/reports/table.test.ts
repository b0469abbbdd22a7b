import fc from 'fast-check';
import { expect, test } from 'vitest';
import { columns } from '../../src/base/columns.ts';
import { type Column, table } from '../../src/reports/table.ts';

const shape: readonly Column[] = [
  { name: 'piece', align: 'left' },
  { name: 'what', align: 'left' },
  { name: 'mm', align: 'right' },
];
const cells = [
  ['A', 'front panel of the lining', '1200.5'],
  ['D1', '日本', '31'],
];

test('words stand to the left, numbers to the right', () => {
  expect(table(shape, cells, 60)).toEqual([
    'piece  what                           mm',
    '─────  ─────────────────────────  ──────',
    'A      front panel of the lining  1200.5',
    'D1     日本                           31',
  ]);
});

test('too wide: words are cut first, numbers last', () => {
  expect(table(shape, cells, 30)[2]).toBe('A      front panel of…  1200.5');
  const long = [['D1', 'front panel', '1234567.125']];
  expect(table(shape, long, 26)[2]).toBe('D1     front…  1234567.125');
  expect(table(shape, cells, 12)).toEqual(['p…  wh…   mm', '──  ───  ───', 'A   fr…  12…', 'D1  日…   31']);
});

test('no rows: the names and the rule', () => {
  expect(table(shape, [], 60)).toEqual(['piece  what  mm', '─────  ────  ──']);
});

test('any cells, any width: no line is wider', () => {
  const cell = fc.string({ unit: 'grapheme', maxLength: 40 });
  fc.assert(
    fc.property(
      fc.array(fc.array(cell, { maxLength: 4 }), { maxLength: 8 }),
      fc.integer({ min: 1, max: 120 }),
      (rows, width) => {
        for (const line of table(shape, rows, width)) expect(columns(line)).toBeLessThanOrEqual(width);
      },
    ),
  );
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Hint, legend } from '../../src/widgets/legend.ts';
import { rowColumns, rowText } from '../../src/widgets/row.ts';

const sewing: readonly Hint[] = [
  { keys: 'enter', words: 'next' },
  { keys: 'h', words: 'hold' },
  { keys: 'b', words: 'look back' },
  { keys: '?', words: 'keys' },
  { keys: 'l', words: 'leave' },
];

const drawn = (width: number, most?: number): readonly string[] => legend(sewing, width, most).map(rowText);

test('the keys stand in one row, the way to all keys last', () => {
  expect(drawn(60)).toEqual(['enter next · h hold · b look back · l leave · ? keys']);
});

test('too narrow for all: the last go, never the way to all keys', () => {
  expect(drawn(45)).toEqual(['enter next · h hold · b look back · ? keys']);
  expect(drawn(30)).toEqual(['enter next · h hold · ? keys']);
  expect(drawn(12)).toEqual(['? keys']);
  expect(drawn(4)).toEqual(['? k…']);
});

test('a second row takes what the first has no room for', () => {
  expect(drawn(34, 2)).toEqual(['enter next · h hold · b look back', 'l leave · ? keys']);
});

test('no hints: an empty row', () => {
  expect(legend([], 20)).toEqual([[]]);
});

test('any hints, any width: never wider, and ? is there wherever it fits', () => {
  const hint = fc.record({ keys: fc.string({ minLength: 1, maxLength: 9 }), words: fc.string({ maxLength: 20 }) });
  fc.assert(
    fc.property(
      fc.array(hint, { maxLength: 12 }),
      fc.integer({ min: 6, max: 120 }),
      fc.integer({ min: 1, max: 3 }),
      (others, width, most) => {
        const rows = legend([...others.filter(({ keys }) => keys !== '?'), { keys: '?', words: 'keys' }], width, most);
        expect(rows.length).toBeLessThanOrEqual(most);
        expect(Math.max(...rows.map(rowColumns))).toBeLessThanOrEqual(width);
        expect(rowText(rows.at(-1) ?? [])).toMatch(/\? keys$/);
      },
    ),
  );
});

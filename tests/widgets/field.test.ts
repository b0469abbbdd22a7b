import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Field, field } from '../../src/widgets/field.ts';
import { rowColumns, rowText } from '../../src/widgets/row.ts';

const drawn = (shape: Field): string => rowText(field(shape));

test('empty cells, typed text, the cursor and the unit', () => {
  expect(drawn({ text: '', width: 5, unit: 'mm' })).toBe('█▁▁▁▁ mm');
  expect(drawn({ text: '312.5', width: 8, unit: 'mm' })).toBe('312.5█▁▁ mm');
});

test('a cursor within the text is the reversed character', () => {
  expect(field({ text: '312', cursor: 1, width: 5 })).toEqual([
    { text: '3', style: 'bright' },
    { text: '1', style: 'reverse' },
    { text: '2', style: 'bright' },
    { text: '▁▁', style: 'plain' },
  ]);
});

test('long text scrolls with the cursor', () => {
  expect(drawn({ text: 'front panel', width: 6 })).toBe('…anel█');
  expect(drawn({ text: 'front panel', cursor: 6, width: 6 })).toBe('…ont p');
  expect(drawn({ text: 'front panel', cursor: 0, width: 6 })).toBe('front…');
});

test('any text, cursor and width: exactly the width, and the cursor is seen', () => {
  const text = fc.string({ unit: fc.constantFrom('a', '1', '日', 'é', '±'), maxLength: 30 });
  fc.assert(
    fc.property(text, fc.nat(40), fc.integer({ min: 2, max: 40 }), (typed, cursor, width) => {
      const row = field({ text: typed, cursor, width });
      expect(rowColumns(row)).toBe(width);
      expect(row.some((part) => part.style === 'reverse' || part.text === '█')).toBe(true);
    }),
  );
});

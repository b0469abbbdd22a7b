import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columns, graphemes } from '../../src/base/columns.ts';
import { cutRow, fillRow, leftRight, type Row, rowColumns, rowText, span } from '../../src/widgets/row.ts';
import { wrapRow } from '../../src/widgets/wrap-row.ts';

const left: Row = [span('LIN-2207 rev C · '), span('Cabin-top lining', 'strong')];
const right: Row = [span('set 1 of 2')];
const words = (width: number, indent?: number): readonly string[] =>
  wrapRow([span('Keep every '), span('sleeve', 'strong'), span('s hem toward the front')], width, indent).map(rowText);

describe('rows', () => {
  test('a cut row ends in … with the meaning of the place', () => {
    expect(cutRow(left, 20)).toEqual([span('LIN-2207 rev C · '), span('Ca…', 'strong')]);
    expect(rowText(cutRow(left, 33))).toBe('LIN-2207 rev C · Cabin-top lining');
    expect(rowText(cutRow([span('日本語')], 4))).toBe('日…');
    expect(rowText(cutRow([span('日本語')], 1))).toBe('…');
    expect(cutRow(left, 0)).toEqual([]);
  });

  test('left gives way to right', () => {
    expect(rowText(leftRight(left, right, 50))).toBe('LIN-2207 rev C · Cabin-top lining       set 1 of 2');
    expect(rowText(leftRight(left, right, 30))).toBe('LIN-2207 rev C · C… set 1 of 2');
    expect(rowText(leftRight(left, right, 12))).toBe('… set 1 of 2');
    expect(rowText(leftRight(left, right, 8))).toBe('set 1 o…');
    expect(rowText(leftRight(left, [], 12))).toBe('LIN-2207 re…');
  });

  test('words break at spaces, not where the meaning changes', () => {
    expect(words(20)).toEqual(['Keep every sleeves', 'hem toward the front']);
    expect(words(20, 3)).toEqual(['Keep every sleeves', '   hem toward the', '   front']);
    expect(words(17)).toEqual(['Keep every', 'sleeves hem', 'toward the front']);
    expect(words(4)).toEqual(['Keep', 'ever', 'y', 'slee', 'ves', 'hem', 'towa', 'rd', 'the', 'fron', 't']);
    expect(wrapRow([], 10)).toEqual([[]]);
  });

  const spans = fc.array(
    fc.string({ unit: 'grapheme', maxLength: 60 }).map((text) => span(text)),
    { maxLength: 5 },
  );

  test('any row wraps without losing a character, and no row is wider than it may be', () => {
    fc.assert(
      fc.property(spans, fc.integer({ min: 2, max: 90 }), fc.nat(6), (row, width, indent) => {
        const wrapped = wrapRow(row, width, indent);
        expect(Math.max(...wrapped.map(rowColumns))).toBeLessThanOrEqual(width);
        const letters = (text: string): string => text.replace(/[ \t\r\n]/g, '');
        const widest = Math.max(0, ...graphemes(rowText(row)).map(columns));
        if (width - indent >= widest) expect(letters(wrapped.map(rowText).join(''))).toBe(letters(rowText(row)));
      }),
    );
  });

  test('filled rows are exact, joined edges never overlap', () => {
    fc.assert(
      fc.property(spans, spans, fc.integer({ min: 1, max: 90 }), (one, other, width) => {
        expect(rowColumns(fillRow(one, width))).toBe(width);
        expect(rowColumns(leftRight(one, other, width))).toBeLessThanOrEqual(width);
      }),
    );
  });
});

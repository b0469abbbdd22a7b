import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { besideRoom, page, scrollRange } from '../../src/widgets/page.ts';
import { type Row, rowColumns, rowText, type Style, span } from '../../src/widgets/row.ts';
import { withoutColour } from '../../src/widgets/theme.ts';

const rows = (name: string, count: number): readonly Row[] =>
  Array.from({ length: count }, (_, at) => [span(`${name}${at}`)]);

function shown(height: number, focus: number, more: { readonly scrollBy?: number; readonly focusRows?: number } = {}) {
  const whole = { header: rows('h', 1), body: rows('b', 12), footer: rows('f', 1), focus, width: 30, height, ...more };
  return { text: page(whole).map(rowText), range: scrollRange(whole) };
}

describe('page', () => {
  test('everything fits: the footer stands at the bottom', () => {
    const { text, range } = shown(16, 0);
    expect(text).toEqual(['h0', ...rows('b', 12).map(rowText), '', '', 'f0']);
    expect(range).toEqual({ least: 0, most: 0 });
  });

  test('what is out of sight is counted', () => {
    expect(shown(8, 0).text).toEqual(['h0', 'b0', 'b1', 'b2', 'b3', 'b4', ' ↓ 7 more below', 'f0']);
    expect(shown(8, 7).text).toEqual(['h0', ' ↑ 4 more above', 'b4', 'b5', 'b6', 'b7', ' ↓ 4 more below', 'f0']);
    expect(shown(8, 11).text).toEqual(['h0', ' ↑ 7 more above', 'b7', 'b8', 'b9', 'b10', 'b11', 'f0']);
  });

  test('rows that belong to the focus come along', () => {
    expect(shown(8, 4, { focusRows: 3 }).text).toContain('b6');
    expect(shown(8, 4, { focusRows: 3 }).text).toContain('b4');
    expect(shown(6, 4, { focusRows: 9 }).text).toContain('b4');
  });

  test('scrolling by hand stops at both ends', () => {
    const { range } = shown(8, 7);
    expect(range).toEqual({ least: -3, most: 3 });
    expect(shown(8, 7, { scrollBy: 2 }).text).toEqual([
      'h0',
      ' ↑ 6 more above',
      'b6',
      'b7',
      'b8',
      'b9',
      ' ↓ 2 more below',
      'f0',
    ]);
    expect(shown(8, 7, { scrollBy: -99 }).text).toEqual(shown(8, 0).text);
    expect(shown(8, 7, { scrollBy: 99 }).text).toEqual(shown(8, 11).text);
  });

  test('with little height the footer goes first, then the header, never the focus', () => {
    expect(shown(4, 5).text).toEqual(['h0', ' ↑ 5 more above', 'b5', ' ↓ 6 more below']);
    expect(shown(3, 5).text).toEqual([' ↑ 5 more above', 'b5', ' ↓ 6 more below']);
    expect(shown(2, 5).text).toEqual(['b4', 'b5']);
    expect(shown(1, 5).text).toEqual(['b5']);
    expect(shown(0, 5).text).toEqual([]);
  });

  test('something beside the body has its room to the column, while the body scrolls and head and foot go across', () => {
    const rooms: unknown[] = [];
    const draw = (room: { readonly columns: number; readonly rows: number }): readonly Row[] => {
      rooms.push(room);
      return Array.from({ length: room.rows - 1 }, () => [span('#'.repeat(room.columns))]);
    };
    const whole = {
      header: [[span('a head that goes across all')]],
      body: rows('body ', 12),
      footer: [[span('a foot that goes across all')]],
      focus: 7,
      width: 30,
      height: 9,
      beside: { from: 10, draw },
    };
    const out = page(whole).map(rowText);
    const [head, first, second] = out;
    expect(head).toBe('a head that goes across all');
    expect(first).toBe(` ↑ 3 more…${'#'.repeat(20)}`);
    expect(second).toBe(`body 3    ${'#'.repeat(20)}`);
    expect(out.at(-2)).toBe(' ↓ 4 more…');
    expect(out.at(-1)).toBe('a foot that goes across all');
    expect(besideRoom(whole)).toEqual({ column: 10, row: 1, columns: 20, rows: 4 });
    expect(rooms[0]).toMatchObject({ columns: 20, rows: 4 });
    const larger = { ...whole, footer: rows('foot ', 6) };
    expect(besideRoom(larger)).toMatchObject({ rows: 3 });
    expect(besideRoom({ ...whole, beside: { from: 30, draw } })).toBeNull();
    expect(page({ ...whole, beside: { from: 30, draw } }).map(rowText)[2]).toBe('body 3');
    expect(besideRoom({ ...whole, body: [] })).toMatchObject({ rows: 7 });
    expect(besideRoom({ ...whole, height: 0 })).toBeNull();
  });

  const texts = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 80 }),
    fc.string({ unit: fc.constantFrom('a', ' ', '日', '👍🏽', 'é', '±'), maxLength: 120 }),
  );
  const style = fc.constantFrom(...(Object.keys(withoutColour) as Style[]));
  const anyRows = fc.array(fc.array(fc.record({ text: texts, style }), { maxLength: 4 }), { maxLength: 40 });

  test('any rows at any size: exactly the height, never wider, the focus in sight, the rest counted', () => {
    fc.assert(
      fc.property(
        anyRows,
        anyRows,
        anyRows,
        fc.nat(60),
        fc.integer({ min: -50, max: 50 }),
        fc.integer({ min: 1, max: 200 }),
        fc.integer({ min: 1, max: 60 }),
        (header, body, footer, focus, scrollBy, width, height) => {
          const whole = { header, body, footer, focus, scrollBy, width, height };
          const out = page(whole);
          expect(out).toHaveLength(height);
          expect(Math.max(...out.map(rowColumns))).toBeLessThanOrEqual(width);

          const named = rows('body', body.length);
          const still = page({ ...whole, body: named, scrollBy: 0, width: 200 }).map(rowText);
          if (focus < body.length) expect(still).toContain(`body${focus}`);
          const counted = still
            .map((text) => Number(/^ [↑↓] (\d+) more/.exec(text)?.[1] ?? 0))
            .reduce((a, b) => a + b, 0);
          const seen = named.filter((row) => still.includes(rowText(row))).length;
          if (height >= 3) expect(seen + counted).toBe(body.length);
        },
      ),
      { numRuns: 300 },
    );
  });
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { rowColumns, rowText } from '../../src/widgets/row.ts';
import { type Progress, seam } from '../../src/widgets/seam.ts';

const drawn = (progress: Progress, width: number): string => rowText(seam(progress, width));

test('stitches sewn, the needle, stitches to come', () => {
  expect(drawn({ done: 4, total: 10 }, 11)).toBe('╍╍╍╍▼┈┈┈┈┈┈');
  expect(drawn({ done: 4, total: 10, ticks: [2, 7] }, 11)).toBe('╍╍╂╍▼┈┈┊┈┈┈');
  expect(seam({ done: 4, total: 10 }, 11).map(({ style }) => style)).toEqual(['plain', 'bright', 'dim']);
});

test('the needle leaves the edge with the first point and arrives only with the last', () => {
  expect(drawn({ done: 0, total: 500 }, 6)).toBe('▼┈┈┈┈┈');
  expect(drawn({ done: 1, total: 500 }, 6)).toBe('╍▼┈┈┈┈');
  expect(drawn({ done: 499, total: 500 }, 6)).toBe('╍╍╍╍▼┈');
  expect(drawn({ done: 500, total: 500 }, 6)).toBe('╍╍╍╍╍▼');
});

test('nothing to sew and more than everything done are drawn too', () => {
  expect(drawn({ done: 0, total: 0 }, 4)).toBe('▼┈┈┈');
  expect(drawn({ done: 12, total: 10 }, 4)).toBe('╍╍╍▼');
  expect(drawn({ done: 3, total: 10 }, 1)).toBe('▼');
  expect(drawn({ done: 3, total: 10 }, 0)).toBe('');
});

test('the seam is exactly as wide as asked and never goes back', () => {
  fc.assert(
    fc.property(
      fc.nat(400),
      fc.nat(400),
      fc.array(fc.nat(400)),
      fc.integer({ min: 1, max: 200 }),
      (done, total, ticks, width) => {
        expect(rowColumns(seam({ done, total, ticks }, width))).toBe(width);
        const needle = (count: number): number => drawn({ done: count, total }, width).indexOf('▼');
        expect(needle(done + 1)).toBeGreaterThanOrEqual(needle(done));
      },
    ),
  );
});

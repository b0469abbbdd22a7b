import fc from 'fast-check';
import { expect, test } from 'vitest';
import { clip, type Segment } from '../../src/picture/clip.ts';

test.each<[string, Segment, Segment | null]>([
  ['inside', [1, 1, 9, 4], [1, 1, 9, 4]],
  ['through', [-10, 2, 20, 2], [0, 2, 10, 2]],
  ['down through a corner', [-5, -5, 5, 5], [0, 0, 5, 5]],
  ['outside', [-5, 2, -1, 2], null],
  ['beside, and level', [-5, -1, 20, -1], null],
  ['past a corner', [-3, 3, 3, -4], null],
  ['a number that is none', [Number.NaN, 0, 1, 1], null],
  ['without an end', [0, 0, Infinity, 1], null],
])('%s', (_, line, seen) => expect(clip(line, 10, 5)).toEqual(seen));

test('what is left of a line lies in the field, however long the line', () => {
  const any = fc.double({ noNaN: true });
  fc.assert(
    fc.property(any, any, any, any, (...line) => {
      const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = clip(line, 10, 5) ?? [];
      for (const x of [x0, x1]) expect(x >= 0 && x <= 10).toBe(true);
      for (const y of [y0, y1]) expect(y >= 0 && y <= 5).toBe(true);
    }),
  );
  // The length of the line swallows where it began.
  expect(clip([-1e300, 2, 3e299, 2], 10, 5)).toEqual([0, 2, expect.any(Number), 2]);
});

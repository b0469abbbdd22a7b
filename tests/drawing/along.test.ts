import fc from 'fast-check';
import { expect, test } from 'vitest';
import { nearestAlong, placeAlong } from '../../src/drawing/along.ts';
import { between, curvesOf, type Point } from '../../src/drawing/curve.ts';
import { lengthOf } from '../../src/drawing/length.ts';

const point = fc.tuple(fc.integer({ min: -100, max: 100 }), fc.integer({ min: -100, max: 100 }));
const words = (...points: readonly Point[]): string => points.map((each) => each.join(' ')).join(' ');
const stretch = fc.oneof(
  point.map((to) => `L${words(to)}`),
  fc.tuple(point, point, point).map((points) => `C${words(...points)}`),
  fc
    .tuple(fc.integer({ min: 9, max: 200 }), fc.integer({ min: -90, max: 90 }), fc.constantFrom('0 1', '1 0'), point)
    .map(([radius, turn, flags, to]) => `A${radius} ${radius / 3} ${turn} ${flags} ${words(to)}`),
);
const path = fc
  .tuple(point, fc.array(stretch, { minLength: 1, maxLength: 3 }))
  .map(([at, all]) => `M${words(at)}${all.join('')}`);

test('no place of a path is nearer than the nearest one, and it is as far along as it says', () => {
  fc.assert(
    fc.property(path, point, (data, from) => {
      const nearest = nearestAlong(data, from);
      if (nearest === undefined) return;
      const tried = curvesOf(data).flatMap(({ at }) =>
        Array.from({ length: 500 }, (_, i) => between(at(i / 499), from)),
      );
      expect(nearest.away).toBeLessThanOrEqual(Math.min(...tried) + 1e-9);
      expect(between(nearest.place, from)).toBeCloseTo(nearest.away, 9);
      expect(between(placeAlong(data, nearest.along) ?? [0, 0], nearest.place)).toBeLessThan(1e-6);
      expect(nearest.along).toBeLessThanOrEqual(lengthOf(data) + 1e-9);
    }),
  );
});

test('the way is square within a line and not beyond its end', () => {
  expect(nearestAlong('M0 0L9 0', [4, 5])).toMatchObject({ along: 4, away: 5, square: true });
  expect(nearestAlong('M0 0L9 0', [12, 4])).toMatchObject({ along: 9, away: 5, square: false });
});

test('beyond the end of a path is its end, and nothing is along one without length', () => {
  expect(placeAlong('M0 0L9 0L9 9', 99)).toEqual([9, 9]);
  expect(placeAlong('M0 0', 1)).toBeUndefined();
  expect(nearestAlong('M0 0', [1, 1])).toBeUndefined();
});

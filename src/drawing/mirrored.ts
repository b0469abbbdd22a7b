import type { Point } from './curve.ts';
import { flatten } from './flatten.ts';
import { awayFrom, moments } from './polygon.ts';

/** Outlines nearer than this to each other are the same to whoever cuts them. */
const WITHIN = 0.5;

/**
 * What two pieces are to each other, wherever and however they are turned on the drawing: `mirrored` when one is the other turned over
 * (a piece that is its own mirror is that, too), `same` when one only has to be turned round, else `different`.
 */
export function handOf(first: string, second: string): 'mirrored' | 'same' | 'different' {
  const [a, b] = [outline(first), outline(second)];
  if (a === undefined || b === undefined) return 'different';
  if (
    fits(
      a.map(([x, y]): Point => [-x, y]),
      b,
    )
  )
    return 'mirrored';
  return fits(a, b) ? 'same' : 'different';
}

/** The points of an outline about the middle of its area; `undefined` for what encloses none. */
function outline(path: string): readonly Point[] | undefined {
  const points = flatten(path, WITHIN / 10).reduce((best, run) => (areaOf(run) > areaOf(best) ? run : best), []);
  const [area, x, y] = moments(points);
  return Math.abs(area) < 1e-6 ? undefined : points.map((point) => [point[0] - x, point[1] - y]);
}

const areaOf = (points: readonly Point[]): number => Math.abs(moments(points)[0]);

/**
 * Whether one outline can be turned about its middle until it lies on the other. The point furthest from the middle must come to lie
 * on one that is as far away, which leaves few turns to try.
 */
function fits(a: readonly Point[], b: readonly Point[]): boolean {
  const far = (points: readonly Point[]): Point =>
    points.reduce((best, p) => (reach(p) > reach(best) ? p : best), [0, 0]);
  const top = far(a);
  if (Math.abs(reach(top) - reach(far(b))) > WITHIN) return false;
  const candidates = b.filter((point) => reach(point) > reach(top) - WITHIN);
  // A round piece has them all round it; any of them will do.
  const step = Math.ceil(candidates.length / MOST_TURNS);
  return candidates.some((point, index) => index % step === 0 && liesOn(turned(a, angleOf(point) - angleOf(top)), b));
}

const MOST_TURNS = 64;
const reach = (point: Point): number => Math.hypot(...point);
const angleOf = ([x, y]: Point): number => Math.atan2(y, x);

const turned = (points: readonly Point[], angle: number): readonly Point[] => {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return points.map(([x, y]) => [x * cos - y * sin, x * sin + y * cos]);
};

const liesOn = (a: readonly Point[], b: readonly Point[]): boolean =>
  a.every((point) => awayFrom(b, point) <= WITHIN) && b.every((point) => awayFrom(a, point) <= WITHIN);

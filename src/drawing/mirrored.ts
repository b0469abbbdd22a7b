import { between, type Point } from './curve.ts';
import { flatten } from './flatten.ts';

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

/** Signed area and its middle, by Green's theorem over the sides of a polygon. */
function moments(points: readonly Point[]): readonly [area: number, x: number, y: number] {
  let [area, x, y] = [0, 0, 0];
  // Relative to the first point: far from where the numbers begin nothing is lost.
  const [from = [0, 0] as Point] = points;
  for (const [index, point] of points.entries()) {
    const next = points[(index + 1) % points.length] ?? point;
    const [ax, ay, bx, by] = [point[0] - from[0], point[1] - from[1], next[0] - from[0], next[1] - from[1]];
    const part = (ax * by - bx * ay) / 2;
    area += part;
    x += (part * (ax + bx)) / 3;
    y += (part * (ay + by)) / 3;
  }
  return area === 0 ? [0, 0, 0] : [area, from[0] + x / area, from[1] + y / area];
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

function awayFrom(points: readonly Point[], point: Point): number {
  let best = Number.POSITIVE_INFINITY;
  for (const [index, from] of points.entries()) {
    const to = points[(index + 1) % points.length] ?? from;
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const square = dx * dx + dy * dy;
    const t = square === 0 ? 0 : ((point[0] - from[0]) * dx + (point[1] - from[1]) * dy) / square;
    const on = Math.max(0, Math.min(1, t));
    best = Math.min(best, between([from[0] + on * dx, from[1] + on * dy], point));
  }
  return best;
}

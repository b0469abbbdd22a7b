import { arcLength } from './arc-length.ts';
import { between, type Curve, curvesOf, type Point } from './curve.ts';

/** The place so many millimetres along a part's path; the end where it is shorter. `undefined` for a path without length. */
export function placeAlong(path: string, distance: number): Point | undefined {
  const curves = curvesOf(path);
  let left = distance;
  for (const curve of curves) {
    const length = arcLength(curve);
    if (left <= length) return curve.at(partOf(curve, left, length));
    left -= length;
  }
  return curves.at(-1)?.at(1);
}

interface Nearest {
  /** Millimetres from the start of the path. */
  readonly along: number;
  readonly away: number;
  readonly place: Point;
  /** Whether the way there is square to the path: false beyond its ends and at a corner. */
  readonly square: boolean;
}

/** The place of a part's path that is nearest to a point; `undefined` for a path without length. */
export function nearestAlong(path: string, point: Point): Nearest | undefined {
  let before = 0;
  let best: Nearest | undefined;
  for (const curve of curvesOf(path)) {
    const t = nearestOn(curve, point);
    const place = curve.at(t);
    const away = between(place, point);
    if (best === undefined || away < best.away)
      best = { along: before + arcLength(curve, 0, t), away, place, square: isSquare(curve.slope(t), place, point) };
    before += arcLength(curve);
  }
  return best;
}

/** Part of a curve's t at which so much of its length is behind. */
function partOf(curve: Curve, distance: number, length: number): number {
  if (curve.is === 'line') return distance / length;
  let [low, high] = [0, 1];
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (arcLength(curve, 0, middle) < distance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function nearestOn(curve: Curve, point: Point): number {
  if (curve.is === 'line') {
    const [x, y] = curve.at(0);
    const [across, down] = curve.slope(0);
    const t = ((point[0] - x) * across + (point[1] - y) * down) / (across * across + down * down);
    return Math.max(0, Math.min(1, t));
  }
  const away = (t: number): number => between(curve.at(t), point);
  const tries = Array.from({ length: TRIES + 1 }, (_, index) => index / TRIES);
  const first = tries.reduce((best, t) => (away(t) < away(best) ? t : best), 0);
  let [low, high] = [Math.max(0, first - 1 / TRIES), Math.min(1, first + 1 / TRIES)];
  // Where the nearest place is passed, the way to it turns from ahead to behind.
  const ahead = (t: number): boolean => dot(curve.slope(t), curve.at(t), point) > 0;
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (ahead(middle)) low = middle;
    else high = middle;
  }
  const found = (low + high) / 2;
  return away(found) < away(first) ? found : first;
}

const TRIES = 64;

const dot = (slope: Point, from: Point, to: Point): number =>
  slope[0] * (to[0] - from[0]) + slope[1] * (to[1] - from[1]);

/** Within a thousandth of a right angle, or on the line. */
function isSquare(slope: Point, place: Point, point: Point): boolean {
  const away = between(place, point);
  return away < 1e-9 || Math.abs(dot(slope, place, point)) <= 1e-3 * away * Math.hypot(...slope);
}

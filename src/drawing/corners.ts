import { ok, type Result, refuse } from '../base/result.ts';
import { between, type Point, type Run, runsOf } from './curve.ts';
import { offLine } from './straight.ts';

/**
 * The four corners of a piece, as drawn: upper left first, then clockwise. Where a corner is cut round, the point in which its two sides
 * would meet. Refused as `corners-not-four`.
 */
export function cornersOf(path: string): Result<readonly [Point, Point, Point, Point]> {
  const [run, ...more] = runsOf(path);
  const sides = run?.closed && more.length === 0 ? straightSides(run.curves) : [];
  const corners = sides.map((side, index) => meeting(side, sides[(index + 1) % sides.length] ?? side));
  const [a, b, c, d] = corners;
  if (sides.length !== 4 || !a || !b || !c || !d) {
    return refuse(
      'corners-not-four',
      `it has ${sides.length || 'no'} straight sides and not four; name a line drawn from corner to corner.`,
    );
  }
  return ok(fromUpperLeft([a, b, c, d]));
}

type Side = readonly [Point, Point];

/** The straight sides of an outline: stretches that lie in one line are one, also over the point where it begins. */
export function straightSides(curves: Run['curves']): readonly Side[] {
  const sides: (Side | null)[] = [];
  for (const { is, at } of curves) {
    const before = sides.at(-1);
    const side: Side | null = is === 'line' ? [at(0), at(1)] : null;
    if (side !== null && before && goesOn(before, side)) sides[sides.length - 1] = [before[0], side[1]];
    else sides.push(side);
  }
  const [first, last] = [sides[0], sides.at(-1)];
  if (sides.length > 1 && first && last && goesOn(last, first)) {
    sides[0] = [last[0], first[1]];
    sides.pop();
  }
  return sides.filter((side) => side !== null);
}

const goesOn = ([from, to]: Side, [, next]: Side): boolean =>
  Math.abs(offLine(from, to, next)) < 1e-6 * Math.max(1, between(from, next));

function meeting([a, b]: Side, [c, d]: Side): Point | undefined {
  const [abX, abY, cdX, cdY] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const cross = abX * cdY - abY * cdX;
  if (Math.abs(cross) < 1e-9 * Math.hypot(abX, abY) * Math.hypot(cdX, cdY)) return undefined;
  const t = ((c[0] - a[0]) * cdY - (c[1] - a[1]) * cdX) / cross;
  return [a[0] + t * abX, a[1] + t * abY];
}

function fromUpperLeft(corners: readonly [Point, Point, Point, Point]): readonly [Point, Point, Point, Point] {
  const middle = [0, 1].map((axis) => corners.reduce((sum, corner) => sum + (corner[axis] ?? 0), 0) / 4);
  const angle = ([x, y]: Point): number => Math.atan2(y - (middle[1] ?? 0), x - (middle[0] ?? 0));
  // With y downward, angles grow clockwise from the right; the upper left quarter begins at -π.
  const [a, b, c, d] = corners.toSorted((p, q) => angle(p) - angle(q));
  return a && b && c && d ? [a, b, c, d] : corners;
}

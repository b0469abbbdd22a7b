import { between, type Point } from '../drawing/curve.ts';
import { offLine } from '../drawing/straight.ts';

/** A straight line from one place to another. */
export type Stretch = readonly [Point, Point];

/** How far a line lies from another, in millimetres; `null` when they are not parallel, or less than half of it runs beside the other. */
export function apart(line: Stretch, other: Stretch): number | null {
  const [[ax, ay], [bx, by]] = line;
  const length = between(...line);
  const turn = (offLine(...line, other[1]) - offLine(...line, other[0])) / between(...other);
  if (!(Math.abs(turn) <= PARALLEL)) return null;
  const [from = 0, to = 0] = other
    .map(([x, y]) => ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length)
    .sort((a, b) => a - b);
  const beside = Math.min(length, to) - Math.max(0, from);
  return beside < length / 2 ? null : Math.abs(offLine(...other, [(ax + bx) / 2, (ay + by) / 2]));
}

/** The sine of a third of a degree: lines drawn by hand in a program are no more off. */
const PARALLEL = 0.006;

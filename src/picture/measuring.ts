import { between, type Point } from '../drawing/curve.ts';
import { flatten } from '../drawing/flatten.ts';
import { offLine } from '../drawing/straight.ts';

export type Stretch = readonly [Point, Point];

/** Stretches that lie in one line to a hundredth of a millimetre, as points of a flattened curve lie beside it, are one. */
const WITHIN = 0.01;

/** The places around a piece, closed: the last one is the first. Of several outlines, the first. */
export function outlineOf(path: string): readonly Point[] {
  const [points = []] = flatten(path, WITHIN);
  const [first] = points;
  return first ? [...points, first] : [];
}

/** The straight stretches of an outline, those that follow each other in one direction as one. */
export function edgesOf(outline: readonly Point[]): readonly Stretch[] {
  const edges: Stretch[] = [];
  for (const one of stretchesOf(outline)) {
    const last = edges.at(-1);
    if (far(one) < WITHIN) continue;
    if (last && far(last) > 1 && Math.abs(offLine(...last, one[1])) <= WITHIN)
      edges[edges.length - 1] = [last[0], one[1]];
    else edges.push(one);
  }
  return edges;
}

/** Whether a place lies inside an outline or on it: how often a ray to the right crosses it. */
export function isWithin(outline: readonly Point[], [x, y]: Point): boolean {
  let crossings = 0;
  for (const [[x0, y0], [x1, y1]] of stretchesOf(outline)) {
    if (y0 > y === y1 > y) continue;
    if (x <= x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)) crossings++;
  }
  return crossings % 2 === 1;
}

/** How far apart two parallel stretches are, in millimetres; `null` when they are not parallel, or do not lie beside each other. */
export function apart(one: Stretch, other: Stretch): number | null {
  const [[ax, ay], [bx, by]] = one;
  const [[cx, cy], [dx, dy]] = other;
  const [ux, uy] = [(bx - ax) / far(one), (by - ay) / far(one)];
  const turn = (ux * (dy - cy) - uy * (dx - cx)) / far(other);
  if (!(Math.abs(turn) <= PARALLEL)) return null;
  const along = [cx, dx].map((x, index) => (x - ax) * ux + ((index === 0 ? cy : dy) - ay) * uy);
  const common = Math.min(far(one), Math.max(...along)) - Math.max(0, Math.min(...along));
  return common < far(one) / 2 ? null : Math.abs(offLine(...other, [(ax + bx) / 2, (ay + by) / 2]));
}

/** The sine of a third of a degree: lines drawn by hand in a program are no more off. */
const PARALLEL = 0.006;

/** Places along each straight stretch of a path, none of them at an end: a seam often ends a hair beyond the edge it runs to. */
export function places(path: string): readonly Point[] {
  return flatten(path, 1).flatMap((points) =>
    stretchesOf(points).flatMap(([[x0, y0], [x1, y1]]) =>
      [0.01, 0.25, 0.5, 0.75, 0.99].map((part): Point => [x0 + (x1 - x0) * part, y0 + (y1 - y0) * part]),
    ),
  );
}

const stretchesOf = (points: readonly Point[]): readonly Stretch[] =>
  points.slice(1).map((to, index) => [points[index] ?? to, to]);

const far = ([from, to]: Stretch): number => between(from, to);

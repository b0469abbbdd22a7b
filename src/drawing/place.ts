import { boxOf, middleOf } from './box.ts';
import { between, type Point, runsOf } from './curve.ts';

/**
 * Where a part is that marks a place: a notch or a cross, drawn in one or several strokes. The middle between the ends of its strokes,
 * so for a V the middle of its mouth; of a closed stroke the middle of its box. `null` for what has an extent of its own, such as a seam or
 * an outline with a hole in it, and for strokes that lie apart: those are lines.
 */
export function placeOf(path: string): Point | null {
  const runs = runsOf(path);
  const isMadeOfStrokes = runs.length > 1 && runs.every(({ closed }) => !closed);
  if (!isMadeOfStrokes && !isSmall(path)) return null;
  const ends = runs.map(({ start, closed, curves }): Point => {
    if (closed) return middleOf(boxOf(path));
    const end = curves.at(-1)?.at(1) ?? start;
    return [(start[0] + end[0]) / 2, (start[1] + end[1]) / 2];
  });
  const mean = (axis: 0 | 1): number => ends.reduce((sum, end) => sum + end[axis], 0) / ends.length;
  const place: Point = [mean(0), mean(1)];
  return ends.every((end) => between(end, place) <= SMALL) ? place : null;
}

/** One stroke no larger than this is a notch, or a drill hole; strokes no further from their middle are a cross, or a double notch. */
const SMALL = 15;

function isSmall(path: string): boolean {
  const { width, height } = boxOf(path);
  return Math.max(width, height) <= SMALL;
}

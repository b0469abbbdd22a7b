import { boxOf } from '../drawing/box.ts';
import { flatten } from '../drawing/flatten.ts';
import { meet } from './box.ts';
import { clip, type Segment } from './clip.ts';

/** What is seen of a drawing: from a place in it, in millimetres, so many dots or pixels across and down, and so many to a millimetre. */
export interface Field {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly scale: number;
}

/**
 * The straight lines that show a path in a field, one list a run of it, in the field's dots or pixels; `within` so many of them. A curve that
 * reaches far beyond the field may be less exact: it would have no end of lines, and whoever draws them can't be stopped.
 */
export function seenLines(path: string, field: Field, within: number): readonly (readonly Segment[])[] {
  const { x, y, width, height, scale } = field;
  const box = boxOf(path);
  if (!meet(box, { x, y, width: width / scale, height: height / scale })) return [];
  const finest = Math.max(box.width, box.height) / FINEST;
  return flatten(path, Math.max(within / scale, finest)).map((points) =>
    points.slice(1).flatMap(([toX, toY], index) => {
      const [fromX, fromY] = points[index] ?? [toX, toY];
      const line: Segment = [(fromX - x) * scale, (fromY - y) * scale, (toX - x) * scale, (toY - y) * scale];
      const seen = clip(line, width, height);
      return seen === null ? [] : [seen];
    }),
  );
}

/** Parts of a whole line that none can be told from the next. */
const FINEST = 5000;

import { blank, type Row, span } from './row.ts';

/** How far the work is: `done` of `total`, and the counts at which a mark is set on the seam (such as the ends of steps). */
export interface Progress {
  readonly done: number;
  readonly total: number;
  readonly ticks?: readonly number[];
}

/**
 * The progress line, exactly `width` columns: sewn stitches, the needle, stitches to come. The needle leaves the edge with the first
 * point done and reaches the other edge only when all are done.
 */
export function seam({ done, total, ticks = [] }: Progress, width: number): Row {
  if (width <= 0) return blank;
  const needle = place(done, total, width);
  const marks = new Set(ticks.filter((tick) => tick > 0 && tick < total).map((tick) => place(tick, total, width)));
  const stitches = (from: number, to: number, stitch: string, mark: string): string =>
    Array.from({ length: Math.max(0, to - from) }, (_, at) => (marks.has(from + at) ? mark : stitch)).join('');
  return [
    span(stitches(0, needle, '╍', '╂')),
    span('▼', 'bright'),
    span(stitches(needle + 1, width, '┈', '┊'), 'dim'),
  ].filter(({ text }) => text !== '');
}

function place(done: number, total: number, width: number): number {
  const end = width - 1;
  if (total <= 0 || done <= 0) return 0;
  if (done >= total) return end;
  return Math.max(Math.min(1, end), Math.min(end - 1, Math.round((done / total) * end)));
}

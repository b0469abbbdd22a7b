import { between, type Point, runsOf } from './curve.ts';

/** The two ends of a path that is one straight line, however many points it was drawn with; `undefined` for any other. */
export function straightLine(path: string): readonly [Point, Point] | undefined {
  const [run, ...more] = runsOf(path);
  if (run === undefined || more.length > 0 || run.closed || run.curves.length === 0) return undefined;
  const end = run.curves.at(-1)?.at(1) ?? run.start;
  if (between(run.start, end) === 0) return undefined;
  const onIt = run.curves.every(({ is, at }) => is === 'line' && Math.abs(offLine(run.start, end, at(1))) < 1e-6);
  return onIt ? [run.start, end] : undefined;
}

/** Distance of a point from the endless line through two others; positive on its right as y grows downward. */
export const offLine = (a: Point, b: Point, point: Point): number =>
  ((b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])) / between(a, b);

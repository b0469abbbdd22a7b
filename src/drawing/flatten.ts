import { type Point, runsOf } from './curve.ts';

/** Points along a part's path, one list a run of it, no place of the curve further than `within` mm from the line through them. */
export function flatten(path: string, within: number): readonly (readonly Point[])[] {
  return runsOf(path).map(({ curves, start }) => [
    start,
    ...curves.flatMap(({ at, bend }) => {
      // A stretch of a curve leaves its chord by no more than an eighth of its bend times the square of its part of t.
      const pieces = Math.min(MOST, Math.max(1, Math.ceil(Math.sqrt(bend / (8 * within)))));
      return Array.from({ length: pieces }, (_, index) => at((index + 1) / pieces));
    }),
  ]);
}

const MOST = 10_000;

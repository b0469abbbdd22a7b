import { type Point, runsOf } from './curve.ts';

/** Points along a part's path, one list a run of it, no place of the curve further than `within` mm from the line through them. */
export function flatten(path: string, within: number): readonly (readonly Point[])[] {
  const runs = runsOf(path);
  const most = Math.min(
    MOST,
    Math.max(1, Math.floor(MOST_OF_PATH / runs.reduce((sum, run) => sum + run.curves.length, 0))),
  );
  return runs.map(({ curves, start }) => [
    start,
    ...curves.flatMap(({ at, bend }) => {
      // A stretch of a curve leaves its chord by no more than an eighth of its bend times the square of its part of t.
      const pieces = Math.min(most, Math.max(1, Math.ceil(Math.sqrt(bend / (8 * within)))));
      return Array.from({ length: pieces }, (_, index) => at((index + 1) / pieces));
    }),
  ]);
}

/** Pieces of a curve: enough for panels of some metres. Handles far outside would ask for more, and thousands of them for more than any machine holds. */
const MOST = 1_000;
const MOST_OF_PATH = 20_000;

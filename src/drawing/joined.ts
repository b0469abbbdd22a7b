import { ok, type Result, refuse } from '../base/result.ts';
import type { Drawing, Part } from './drawing.ts';
import { astray, lengthsBetween, notchesOf } from './notches.ts';

/** One stretch of two edges that are to be joined. */
interface Stretch {
  /** From where to where, such as `the start to notch-A-aft-1`; by the notches of the first edge. */
  readonly words: string;
  /** Lengths in millimetres on the first edge and on the second. */
  readonly lengths: readonly [number, number];
}

/**
 * Two edges laid on each other notch to notch, in the direction in which they fit better: a drawing may have drawn them in opposite
 * ones. Refused as `notches-differ` when one has more notches than the other, and as `notch-astray`.
 */
export function joined(drawing: Drawing, first: Part, second: Part): Result<readonly Stretch[]> {
  const [notches, others] = [notchesOf(drawing, first), notchesOf(drawing, second)];
  if (notches.length !== others.length) {
    const count = (n: number): string => (n === 1 ? '1 notch' : `${n} notches`);
    const why = `${first.id} has ${count(notches.length)} and ${second.id} has ${count(others.length)}`;
    return refuse('notches-differ', `${why}; draw a notch on both for each place that meets.`);
  }
  const lost = astray(notches, first) ?? astray(others, second);
  if (lost !== undefined) return lost;
  const lengths = lengthsBetween(notches, first);
  const forward = lengthsBetween(others, second);
  const backward = forward.toReversed();
  const apart = (other: readonly number[]): number =>
    lengths.reduce((sum, length, index) => sum + Math.abs(length - (other[index] ?? 0)), 0);
  const matching = apart(backward) < apart(forward) ? backward : forward;
  const names = ['the start', ...notches.map(({ id }) => id), 'the end'];
  return ok(
    lengths.map((length, index) => ({
      words: `${names[index]} to ${names[index + 1]}`,
      lengths: [length, matching[index] ?? 0],
    })),
  );
}

import type { Check } from '../bundle/bundle.ts';
import type { Place } from '../bundle/route.ts';

/** A recorded value as a person reads it: with its unit, and as it was typed where that was in another unit. */
export function valueWords(check: Pick<Check, 'value' | 'unit' | 'typed'>): string {
  if (check.unit === null) return check.value;
  const plain = `${check.value} ${check.unit}`;
  const typed = check.typed.trim();
  const otherUnit = /[^\d.,+\-−\s]/.test(typed.replace(check.unit, ''));
  return otherUnit ? `${plain} (${typed})` : plain;
}

/** What is wrong with a value that is not acceptable: `316 mm is 2.5 mm above 310.5 to 313.5 mm`. */
export function outsideWords(check: Pick<Check, 'value' | 'unit' | 'typed' | 'verdict' | 'by' | 'limit'>): string {
  const value = valueWords(check);
  return check.verdict === 'unacceptable' || check.by === undefined
    ? `${value} is not ${check.limit}`
    : `${value} is ${check.by} ${check.unit} ${check.verdict === 'above' ? 'above' : 'below'} ${check.limit}`;
}

/** `set 1 of 2`, or `whole bundle`. */
export const setWords = ({ set }: Pick<Place, 'set'>, sets: number): string =>
  set === null ? 'whole bundle' : `set ${set} of ${sets}`;

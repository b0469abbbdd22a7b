import type Fraction from 'fraction.js';
import { fromDecimal, toDecimal, toDecimalAt } from './decimal.ts';
import type { Limit } from './limit.ts';

/** `by`: how far beyond the bound, a decimal in the limit's unit, never `0`. */
export type Verdict =
  | { readonly is: 'within' }
  | { readonly is: 'below'; readonly by: string }
  | { readonly is: 'above'; readonly by: string }
  | { readonly is: 'not judged' };

/** Compares an exact amount, in the limit's unit, with its bounds. A value on the bound is within. */
export function judge(amount: Fraction, limit: Limit | null): Verdict {
  if (limit === null || (limit.low === null && limit.high === null)) return { is: 'not judged' };
  if (limit.low !== null) {
    const short = fromDecimal(limit.low).sub(amount);
    if (short.gt(0n)) return { is: 'below', by: distance(short) };
  }
  if (limit.high !== null) {
    const over = amount.sub(fromDecimal(limit.high));
    if (over.gt(0n)) return { is: 'above', by: distance(over) };
  }
  return { is: 'within' };
}

/** A distance that rounding would make nothing keeps its first digit instead. */
function distance(positive: Fraction): string {
  const usual = toDecimal(positive);
  if (usual !== '0') return usual;
  const zeros = (positive.d / positive.n).toString().length;
  return toDecimalAt(positive, zeros);
}

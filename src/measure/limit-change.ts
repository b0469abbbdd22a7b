import { fromDecimal } from './decimal.ts';
import type { Limit } from './limit.ts';
import { convert, unitKind } from './unit.ts';

export type LimitChange = 'added' | 'removed' | 'tightened' | 'widened' | 'shifted';

/**
 * What became of a limit: `tightened` when it lets through only what the old one let through, and less; `widened` the other way
 * round; `shifted` when each lets something through that the other does not, or the quantities cannot be compared. Exact, whatever
 * units the two are in; null when both let through the same.
 */
export function limitChange(before: Limit | null, after: Limit | null): LimitChange | null {
  if (before === null || after === null) return before === after ? null : before === null ? 'added' : 'removed';
  if (unitKind(before.unit) !== unitKind(after.unit)) return 'shifted';
  const low = order(bound(before, 'low', after), bound(after, 'low', after), -1);
  const high = order(bound(after, 'high', after), bound(before, 'high', after), 1);
  if (low === 0 && high === 0) return null;
  // Below 0: the newer bound lies outside the older one.
  if (low <= 0 && high <= 0) return 'tightened';
  return low >= 0 && high >= 0 ? 'widened' : 'shifted';
}

type Bound = ReturnType<typeof fromDecimal> | null;

const bound = (limit: Limit, which: 'low' | 'high', { unit }: Limit): Bound => {
  const value = limit[which];
  return value === null ? null : convert(fromDecimal(value), limit.unit, unit);
};

/** Which bound is the smaller; one that is not there lies `open` (-1: below all others, 1: above them). */
function order(a: Bound, b: Bound, open: -1 | 1): number {
  if (a === null || b === null) return a === b ? 0 : a === null ? open : -open;
  return a.compare(b);
}

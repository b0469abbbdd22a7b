import type { Digest } from '../base/brand.ts';
import { isDigest, leftWidth, nodeDigest, type Range } from './tree.ts';

/**
 * The subtrees whose roots prove that the first `first` of `second` leaves are the leaves of the earlier tree: RFC 6962
 * section 2.1.2, RFC 9162 section 2.1.4.1. Their roots come from `rangeRoot`. Throws unless 0 < first ≤ second: an
 * empty tree is the beginning of every tree, and there is nothing to prove.
 */
export function consistencyRanges(first: number, second: number): readonly Range[] {
  if (first < 1 || first > second) throw new Error(`a tree of ${second} leaves did not grow from ${first}`);
  const downwards: Range[] = [];
  let here: Range = { first: 0, end: second };
  while (here.end !== first) {
    const middle = here.first + leftWidth(here.end - here.first);
    if (first <= middle) {
      downwards.push({ first: middle, end: here.end });
      here = { first: here.first, end: middle };
    } else {
      downwards.push({ first: here.first, end: middle });
      here = { first: middle, end: here.end };
    }
  }
  // A subtree that begins with the tree is the earlier tree itself: whoever checks knows its root.
  return here.first === 0 ? downwards.reverse() : [here, ...downwards.reverse()];
}

/** All that is claimed when somebody says that a tree grew from another. */
export interface ConsistencyClaim {
  readonly first: number;
  readonly firstRoot: string;
  readonly second: number;
  readonly secondRoot: string;
  readonly path: readonly string[];
}

/**
 * Whether the second tree begins with all leaves of the first: RFC 9162 section 2.1.4.2. Never throws. The RFC defines this
 * for 0 < first < second; equal sizes hold when the roots are equal and the path is empty, and nothing grows out of size 0.
 */
export function verifyConsistency({ first, firstRoot, second, secondRoot, path }: ConsistencyClaim): boolean {
  if (!Number.isSafeInteger(first) || !Number.isSafeInteger(second) || first < 1 || first > second) return false;
  if (first === second) return path.length === 0 && firstRoot === secondRoot;
  if (!isDigest(firstRoot)) return false;
  let at = first - 1;
  let last = second - 1;
  while (at % 2 === 1) {
    at = Math.floor(at / 2);
    last = Math.floor(last / 2);
  }
  // Where the first tree is complete, `at` has come to 0, and its root is not in the path.
  const [start, ...rest] = at === 0 ? [firstRoot, ...path] : path;
  if (path.length === 0 || start === undefined || !isDigest(start)) return false;
  let old: Digest = start;
  let now: Digest = start;
  for (const beside of rest) {
    if (last === 0 || !isDigest(beside)) return false;
    if (at % 2 === 1 || at === last) {
      old = nodeDigest(beside, old);
      now = nodeDigest(beside, now);
      while (at % 2 === 0 && at !== 0) {
        at /= 2;
        last = Math.floor(last / 2);
      }
    } else now = nodeDigest(now, beside);
    at = Math.floor(at / 2);
    last = Math.floor(last / 2);
  }
  return last === 0 && old === firstRoot && now === secondRoot;
}

import type { Digest } from '../base/brand.ts';
import { isDigest, leftWidth, nodeDigest, type Range } from './tree.ts';

/**
 * The subtrees whose roots are the audit path of leaf `index` in a tree of `size` leaves, from the leaf upwards: RFC 6962
 * section 2.1.1, RFC 9162 section 2.1.3.1. Their roots come from `rangeRoot`. Throws when the tree has no such leaf.
 */
export function inclusionRanges(index: number, size: number): readonly Range[] {
  if (index < 0 || index >= size) throw new Error(`a tree of ${size} leaves has no leaf ${index}`);
  const downwards: Range[] = [];
  let [first, end] = [0, size];
  while (end - first > 1) {
    const middle = first + leftWidth(end - first);
    if (index < middle) {
      downwards.push({ first: middle, end });
      end = middle;
    } else {
      downwards.push({ first, end: middle });
      first = middle;
    }
  }
  return downwards.reverse();
}

/** All that is claimed when somebody says that a leaf stands in a tree. */
export interface InclusionClaim {
  readonly index: number;
  readonly size: number;
  readonly leaf: string;
  readonly path: readonly string[];
  readonly root: string;
}

/** Whether the path leads from the leaf to the root: RFC 9162 section 2.1.3.2. Never throws. */
export function verifyInclusion({ index, size, leaf, path, root }: InclusionClaim): boolean {
  if (!Number.isSafeInteger(index) || !Number.isSafeInteger(size) || index < 0 || index >= size) return false;
  if (!isDigest(leaf)) return false;
  let here: Digest = leaf;
  let at = index;
  let last = size - 1;
  for (const beside of path) {
    if (last === 0 || !isDigest(beside)) return false;
    if (at % 2 === 1 || at === last) {
      here = nodeDigest(beside, here);
      while (at % 2 === 0 && at !== 0) {
        at /= 2;
        last = Math.floor(last / 2);
      }
    } else here = nodeDigest(here, beside);
    at = Math.floor(at / 2);
    last = Math.floor(last / 2);
  }
  return last === 0 && here === root;
}

import type { Digest } from '../../src/base/brand.ts';
import { type NodeAt, pushLeaf } from '../../src/ledger/tree.ts';

/** The complete nodes of a tree over these leaves, as it tells of them while it grows. */
export function treeOf(leaves: readonly Digest[]): NodeAt {
  const nodes = new Map<string, Digest>();
  const peaks: Digest[] = [];
  for (const [size, leaf] of leaves.entries())
    pushLeaf(peaks, size, leaf, (first, end, root) =>
      nodes.set(`${Math.log2(end - first)} ${first / (end - first)}`, root),
    );
  return (level, place) => {
    const node = nodes.get(`${level} ${place}`);
    if (node === undefined) throw new Error(`node ${place} of level ${level} is not complete`);
    return node;
  };
}

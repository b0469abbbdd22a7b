import { type NodeAt, TreeEdge } from '../../src/ledger/tree.ts';

/** The complete nodes of a tree over these leaves, as an edge tells of them. */
export function treeOf(leaves: readonly Uint8Array[]): NodeAt {
  const nodes = new Map<string, Uint8Array>(leaves.map((leaf, place) => [`0 ${place}`, leaf]));
  const edge = new TreeEdge();
  for (const leaf of leaves) edge.add(leaf, (level, place, hash) => nodes.set(`${level} ${place}`, hash));
  return (level, place) => {
    const node = nodes.get(`${level} ${place}`);
    if (!node) throw new Error(`node ${place} of level ${level} is not complete`);
    return node;
  };
}

import { describe, expect, test } from 'vitest';
import { provesConsistency, provesInclusion } from '../../src/ledger/check-proof.ts';
import { consistencyPath, inclusionPath, rootOf, TreeEdge } from '../../src/ledger/tree.ts';
import { treeOf } from '../ledger/tree-of.ts';
import vectors from './data/merkle-tree.json' with { type: 'json' };

const bytes = (hex: string): Uint8Array => Buffer.from(hex, 'hex');
const hex = (hash: Uint8Array): string => Buffer.from(hash).toString('hex');
const leaves = vectors.leaves.map(bytes);
const nodes = treeOf(leaves);
const rootAt = (size: number): Uint8Array => bytes(vectors.roots[size] ?? '');

describe(vectors.source, () => {
  test.each(vectors.roots.map((root, size) => ({ root, size })))(
    'the root of $size leaves is $root',
    ({ root, size }) => {
      const edge = new TreeEdge();
      for (const leaf of leaves.slice(0, size)) edge.add(leaf);
      expect(hex(edge.root())).toBe(root);
      expect(hex(rootOf(nodes, size))).toBe(root);
      expect(hex(TreeEdge.of(size, nodes).root())).toBe(root);
    },
  );

  test.each(vectors.inclusion)('the path of leaf $leaf among $size', ({ leaf, size, proof }) => {
    expect(inclusionPath(nodes, leaf, size).map(hex)).toEqual(proof);
    const claim = { leaf: leaves[leaf] ?? bytes(''), index: leaf, size, root: rootAt(size), path: proof.map(bytes) };
    expect(provesInclusion(claim)).toBe(true);
  });

  test.each(vectors.consistency)('$size2 leaves begin with $size1', ({ size1, size2, proof }) => {
    expect(consistencyPath(nodes, size1, size2).map(hex)).toEqual(proof);
    const claim = { older: size1, olderRoot: rootAt(size1), size: size2, root: rootAt(size2), path: proof.map(bytes) };
    expect(provesConsistency(claim)).toBe(true);
  });
});

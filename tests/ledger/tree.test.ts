import { hash } from 'node:crypto';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { provesConsistency, provesInclusion } from '../../src/ledger/check-proof.ts';
import { consistencyPath, inclusionPath, rootOf, TreeEdge } from '../../src/ledger/tree.ts';
import { treeOf } from './tree-of.ts';

const leaf = (n: number): Uint8Array => hash('sha256', `\0leaf ${n}`, 'buffer');
const leaves = Array.from({ length: 300 }, (_, n) => leaf(n));
const nodes = treeOf(leaves);

const twoSizes = fc
  .tuple(fc.integer({ min: 1, max: leaves.length }), fc.integer({ min: 1, max: leaves.length }))
  .map(([a, b]) => ({ older: Math.min(a, b), size: Math.max(a, b) }));
const oneAmong = fc
  .integer({ min: 1, max: leaves.length })
  .chain((size) => fc.record({ size: fc.constant(size), index: fc.integer({ min: 0, max: size - 1 }) }));
const anyBit = fc.record({ of: fc.nat(), byte: fc.integer({ min: 0, max: 31 }), bit: fc.integer({ min: 0, max: 7 }) });

type Bit = typeof anyBit extends fc.Arbitrary<infer B> ? B : never;

/** These hashes with one bit of one of them the other way round. */
const flipped = (hashes: readonly Uint8Array[], { of, byte, bit }: Bit): readonly Uint8Array[] =>
  hashes.map((one, place) =>
    place === of % hashes.length ? one.map((value, at) => (at === byte ? value ^ (1 << bit) : value)) : one,
  );

test('an edge taken up at any size goes on to the same root', () => {
  fc.assert(
    fc.property(twoSizes, ({ older, size }) => {
      const edge = TreeEdge.of(older, nodes);
      for (const one of leaves.slice(older, size)) edge.add(one);
      expect(edge.size).toBe(size);
      expect(edge.root()).toEqual(rootOf(nodes, size));
    }),
  );
});

test('a path proves its leaf, and no longer when a bit of anything is turned', () => {
  fc.assert(
    fc.property(oneAmong, anyBit, ({ index, size }, bit) => {
      const path = inclusionPath(nodes, index, size);
      const root = rootOf(nodes, size);
      const claim = { leaf: leaves[index] ?? leaf(-1), index, size, root, path };
      expect(provesInclusion(claim)).toBe(true);
      const [badLeaf = leaf(-1), badRoot = leaf(-1), ...badPath] = flipped([claim.leaf, root, ...path], bit);
      expect(provesInclusion({ ...claim, leaf: badLeaf, root: badRoot, path: badPath })).toBe(false);
      expect(provesInclusion({ ...claim, path: [...path, leaf(-1)] })).toBe(false);
      expect(provesInclusion({ ...claim, path: path.slice(1) })).toBe(path.length === 0);
      expect(provesInclusion({ ...claim, index: (index + 1) % size })).toBe(size === 1);
    }),
  );
});

test('a tree proves the one it grew from, and no longer when a bit of anything is turned', () => {
  fc.assert(
    fc.property(twoSizes, anyBit, ({ older, size }, bit) => {
      const path = consistencyPath(nodes, older, size);
      const [olderRoot, root] = [rootOf(nodes, older), rootOf(nodes, size)];
      const claim = { older, olderRoot, size, root, path };
      expect(provesConsistency(claim)).toBe(true);
      const [badOlder = leaf(-1), badRoot = leaf(-1), ...badPath] = flipped([olderRoot, root, ...path], bit);
      expect(provesConsistency({ ...claim, olderRoot: badOlder, root: badRoot, path: badPath })).toBe(false);
      expect(provesConsistency({ ...claim, path: [...path, leaf(-1)] })).toBe(false);
      expect(provesConsistency({ ...claim, older: size + 1 })).toBe(false);
    }),
  );
});

test('the empty tree is the beginning of none, and has no leaf', () => {
  const root = rootOf(nodes, 8);
  expect(provesConsistency({ older: 0, olderRoot: rootOf(nodes, 0), size: 8, root, path: [] })).toBe(false);
  expect(provesInclusion({ leaf: leaf(0), index: 0, size: 0, root, path: [] })).toBe(false);
  expect(() => inclusionPath(nodes, 8, 8)).toThrow(RangeError);
  expect(() => consistencyPath(nodes, 0, 8)).toThrow(RangeError);
});

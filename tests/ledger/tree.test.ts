import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Digest } from '../../src/base/brand.ts';
import { consistencyRanges, verifyConsistency } from '../../src/ledger/consistency.ts';
import { inclusionRanges, verifyInclusion } from '../../src/ledger/inclusion.ts';
import { leafDigest } from '../../src/ledger/leaf.ts';
import {
  emptyFrontier,
  type Frontier,
  frontierOf,
  grown,
  leftWidth,
  nodeDigest,
  type Range,
  rangeRoot,
  rootOf,
} from '../../src/ledger/tree.ts';
import { treeOf } from './tree-of.ts';

const leaves: readonly Digest[] = Array.from({ length: 140 }, (_, seq) => leafDigest(`entry ${seq}`));
/** Roots of the first 0 to 140 leaves, each added to the one before. */
const frontiers: Frontier[] = [emptyFrontier];
for (const leaf of leaves) frontiers.push(grown(frontiers.at(-1) ?? emptyFrontier, leaf));
const rootAt = (size: number): Digest => rootOf(frontiers[size] ?? emptyFrontier);

test('a tree grown leaf by leaf has the root that its definition gives, and keeps one digest a bit', () => {
  const byDefinition = ({ first, end }: Range): Digest => {
    const middle = first + leftWidth(end - first);
    if (end - first === 1) return leaves[first] ?? rootAt(0);
    return nodeDigest(byDefinition({ first, end: middle }), byDefinition({ first: middle, end }));
  };
  for (let size = 1; size <= leaves.length; size++) expect(rootAt(size)).toBe(byDefinition({ first: 0, end: size }));
  expect(frontiers.map(({ peaks }) => peaks.length)).toEqual(
    frontiers.map(({ size }) => size.toString(2).replaceAll('0', '').length),
  );
});

test('growing leaves the tree before as it was', () => {
  const before = structuredClone(frontiers[7]);
  grown(frontiers[7] ?? emptyFrontier, leafDigest('another'));
  expect(frontiers[7]).toEqual(before);
});

test('the frontier of a tree whose nodes are kept is the one it grew to', () => {
  const nodeAt = treeOf(leaves);
  for (const frontier of frontiers) expect(frontierOf(frontier.size, nodeAt)).toEqual(frontier);
});

const pair = fc.tuple(fc.nat(leaves.length - 1), fc.integer({ min: 1, max: leaves.length }));
const bit = fc.nat(255);

test('a leaf is shown to stand in a tree, and with any bit of the proof turned over it is not', () => {
  fc.assert(
    fc.property(pair, bit, fc.nat(), ([index, more], flip, which) => {
      const size = Math.min(index + more, leaves.length);
      const claim = { index, size, leaf: leaves[index] ?? '', path: path(inclusionRanges(index, size), size) };
      const whole = { ...claim, root: rootAt(size) };
      expect(verifyInclusion(whole)).toBe(true);
      expect(verifyInclusion({ ...whole, leaf: flipped(whole.leaf, flip) })).toBe(false);
      expect(verifyInclusion({ ...whole, root: flipped(whole.root, flip) })).toBe(false);
      for (const wrong of spoilt(claim.path, which, flip))
        expect(verifyInclusion({ ...whole, path: wrong })).toBe(false);
    }),
  );
});

test('a tree is shown to have grown from another, and with any bit of the proof turned over it is not', () => {
  fc.assert(
    fc.property(pair, bit, fc.nat(), ([smaller, more], flip, which) => {
      const first = smaller + 1;
      const second = Math.min(first + more - 1, leaves.length);
      const claim = { first, firstRoot: rootAt(first), second, secondRoot: rootAt(second) };
      const whole = { ...claim, path: path(consistencyRanges(first, second), second) };
      expect(verifyConsistency(whole)).toBe(true);
      expect(verifyConsistency({ ...whole, firstRoot: flipped(whole.firstRoot, flip) })).toBe(false);
      expect(verifyConsistency({ ...whole, secondRoot: flipped(whole.secondRoot, flip) })).toBe(false);
      for (const wrong of spoilt(whole.path, which, flip))
        expect(verifyConsistency({ ...whole, path: wrong })).toBe(false);
    }),
  );
});

test('a path that goes on above the root of its size proves nothing', () => {
  const above = leafDigest('above');
  const over = (root: Digest): Digest => nodeDigest(above, root);
  const stands = { index: 2, size: 5, leaf: leaves[2] ?? '', path: [...path(inclusionRanges(2, 5), 5), above] };
  expect(verifyInclusion({ ...stands, root: over(rootAt(5)) })).toBe(false);
  const grew = { first: 3, second: 5, path: [...path(consistencyRanges(3, 5), 5), above] };
  expect(verifyConsistency({ ...grew, firstRoot: over(rootAt(3)), secondRoot: over(rootAt(5)) })).toBe(false);
});

test('sizes far beyond 32 bits are proved alike', () => {
  const full = fc.integer({ min: 1, max: 2 ** 52 });
  fc.assert(
    fc.property(full, full, (a, b) => {
      const [first, second] = [Math.min(a, b), Math.max(a, b)];
      const [firstRoot, secondRoot] = [first, second].map((end) => ofEqualLeaves({ first: 0, end }));
      const inclusion = inclusionRanges(first - 1, second).map(ofEqualLeaves);
      const consistency = consistencyRanges(first, second).map(ofEqualLeaves);
      const stands = { index: first - 1, size: second, leaf: equalLeaf, path: inclusion, root: secondRoot ?? '' };
      expect(verifyInclusion(stands)).toBe(true);
      expect(
        verifyConsistency({
          first,
          firstRoot: firstRoot ?? '',
          second,
          secondRoot: secondRoot ?? '',
          path: consistency,
        }),
      ).toBe(true);
    }),
  );
});

test('neither check throws, whatever it is given', () => {
  const anything = fc.oneof(fc.constantFrom(...leaves), fc.string(), fc.constantFrom('F'.repeat(64), 'f'.repeat(63)));
  const number = fc.oneof(fc.nat(10), fc.double(), fc.constantFrom(-1, 2 ** 53, Number.NaN));
  fc.assert(
    fc.property(number, number, anything, anything, fc.array(anything), (a, b, one, other, path) => {
      verifyInclusion({ index: a, size: b, leaf: one, path, root: other });
      verifyConsistency({ first: a, firstRoot: one, second: b, secondRoot: other, path });
    }),
    { numRuns: 2_000 },
  );
});

test.each([
  ['a leaf that the tree does not have', () => inclusionRanges(3, 3)],
  ['a tree grown from nothing', () => consistencyRanges(0, 3)],
  ['a tree that shrank', () => consistencyRanges(4, 3)],
  ['a range that is no subtree', () => path([{ first: 1, end: 3 }], 5)],
])('asking for %s is a bug', (_, ask) => {
  expect(ask).toThrow();
});

const path = (ranges: readonly Range[], size: number): readonly Digest[] =>
  ranges.map((range) => rangeRoot(treeOf(leaves.slice(0, size)), range));

function flipped(digest: string, at: number): string {
  const bytes = Buffer.from(digest, 'hex');
  bytes[at >> 3] = (bytes[at >> 3] ?? 0) ^ (1 << (at & 7));
  return bytes.toString('hex');
}

/** The path with one bit over, one element less, one twice, and one more. */
function spoilt(path: readonly Digest[], which: number, flip: number): readonly (readonly string[])[] {
  const more = [[...path, leaves[0] ?? '']];
  const at = which % path.length;
  const here = path[at];
  if (here === undefined) return more;
  return [...more, path.with(at, flipped(here, flip) as Digest), path.toSpliced(at, 1), path.toSpliced(at, 0, here)];
}

/** Root of a range of a tree whose leaves are all the same, where a subtree of any size costs little. */
function ofEqualLeaves({ first, end }: Range): Digest {
  let width = end - first;
  if (width === 1) return equalLeaf;
  const left = leftWidth(width);
  if (left * 2 !== width)
    return nodeDigest(ofEqualLeaves({ first: 0, end: left }), ofEqualLeaves({ first: 0, end: width - left }));
  let root = equalLeaf;
  for (; width > 1; width /= 2) root = nodeDigest(root, root);
  return root;
}
const equalLeaf = leafDigest('again and again');

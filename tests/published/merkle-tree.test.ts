import { describe, expect, test } from 'vitest';
import type { Digest } from '../../src/base/brand.ts';
import { type ConsistencyClaim, consistencyRanges, verifyConsistency } from '../../src/ledger/consistency.ts';
import { type InclusionClaim, inclusionRanges, verifyInclusion } from '../../src/ledger/inclusion.ts';
import { emptyFrontier, grown, type Range, rangeRoot, rootOf } from '../../src/ledger/tree.ts';
import { treeOf } from '../ledger/tree-of.ts';
import vectors from './data/merkle-tree.json' with { type: 'json' };

const [reference, probes, derived] = vectors.source;
const leaves = vectors.leaves as readonly string[] as readonly Digest[];
const rootAt = (size: number): string => vectors.roots[size] ?? '';

test.each(vectors.roots.map((root, size) => ({ size, root })))(
  `root of $size leaves: ${reference}`,
  ({ size, root }) => {
    expect(rootOf(leaves.slice(0, size).reduce(grown, emptyFrontier))).toBe(root);
  },
);

describe(`proofs made here: ${derived}`, () => {
  test.each(vectors.inclusion)('leaf $index of $size', ({ index, size, path }) => {
    expect(rootsOf(inclusionRanges(index, size), size)).toEqual(path);
  });
  test.each(vectors.consistency)('$first of $second', ({ first, second, path }) => {
    expect(rootsOf(consistencyRanges(first, second), second)).toEqual(path);
  });
});

describe(`proofs judged here: ${probes}`, () => {
  const inclusion = [...spoiled(vectors.spoiled.inclusion, inclusionOf, waysForInclusion), ...vectors.singleInclusion];
  const consistency = [
    ...spoiled(vectors.spoiled.consistency, consistencyOf, waysForConsistency),
    ...vectors.singleConsistency,
  ];
  test('there are as many as published', () => {
    expect([inclusion.length, consistency.length]).toEqual([98, 98]);
  });
  test.each(inclusion)('leaf $index of $size, $way', ({ holds, ...claim }) => {
    expect(verifyInclusion(claim)).toBe(holds);
  });
  test.each(consistency)('$first of $second, $way', ({ holds, ...claim }) => {
    // The one choice that is ours: nothing is proved from a tree without leaves, not even that it is itself.
    expect(verifyConsistency(claim)).toBe(holds && claim.first > 0);
  });
});

const rootsOf = (ranges: readonly Range[], size: number): readonly string[] =>
  ranges.map((range) => rangeRoot(treeOf(leaves.slice(0, size)), range));

/** The good proof, and the same proof spoiled in each of the published ways. */
function spoiled<C extends object>(
  pairs: readonly (readonly number[])[],
  good: (a: number, b: number) => C & { readonly path: readonly string[] },
  ways: (claim: C & { readonly path: readonly string[] }) => Readonly<Record<string, Partial<C>>>,
) {
  return pairs.flatMap(([a = 0, b = 0]) => {
    const claim = good(a, b);
    return [
      { ...claim, way: 'good', holds: true },
      ...Object.entries(ways(claim)).map(([way, change]) => ({ ...claim, ...change, way, holds: false })),
    ];
  });
}

function inclusionOf(index: number, size: number): InclusionClaim {
  const path = vectors.inclusion.find((one) => one.index === index && one.size === size)?.path ?? [];
  return { index, size, leaf: leaves[index] ?? '', path, root: rootAt(size) };
}

function consistencyOf(first: number, second: number): ConsistencyClaim {
  const path = vectors.consistency.find((one) => one.first === first && one.second === second)?.path ?? [];
  return { first, firstRoot: rootAt(first), second, secondRoot: rootAt(second), path };
}

function waysForInclusion({
  index,
  size,
  path,
  root,
}: InclusionClaim): Readonly<Record<string, Partial<InclusionClaim>>> {
  return {
    'index - 1': { index: index - 1 },
    'index + 1': { index: index + 1 },
    'index ^ 2': { index: index ^ 2 },
    'size * 2': { size: size * 2 },
    'size / 2': { size: Math.floor(size / 2) },
    'wrong leaf': { leaf: asHex('WrongLeaf') },
    'empty root': { root: rootAt(0) },
    'random root': { root: vectors.someDigest },
    'trailing garbage': { path: [...path, ''] },
    'trailing root': { path: [...path, root] },
    'preceding garbage': { path: ['', ...path] },
    'preceding root': { path: [root, ...path] },
    ...flips(path, 8),
    ...(path.length > 0 && { 'removed component': { path: path.slice(0, -1) } }),
    ...(path.length > 1 && { 'inserted component': { path: path.toSpliced(1, 0, vectors.someDigest) } }),
  };
}

function waysForConsistency({
  first,
  firstRoot,
  second,
  secondRoot,
  path,
}: ConsistencyClaim): Readonly<Record<string, Partial<ConsistencyClaim>>> {
  // Trees that are the same tree are judged as they are and not spoiled.
  if (path.length === 0) return {};
  return {
    'first - 1': { first: first - 1 },
    'first + 1': { first: first + 1 },
    'first ^ 2': { first: first ^ 2 },
    'second * 2': { second: second * 2 },
    'second / 2': { second: Math.floor(second / 2) },
    'wrong first root': { firstRoot: asHex('WrongRoot') },
    'wrong second root': { secondRoot: asHex('WrongRoot') },
    'swapped roots': { firstRoot: secondRoot, secondRoot: firstRoot },
    'empty proof': { path: [] },
    'trailing garbage': { path: [...path, ''] },
    'trailing first root': { path: [...path, firstRoot] },
    'trailing second root': { path: [...path, secondRoot] },
    'preceding garbage': { path: ['', ...path] },
    'preceding first root': { path: [firstRoot, ...path] },
    'preceding second root': { path: [secondRoot, ...path] },
    'preceding its first': { path: [...path.slice(0, 1), ...path] },
    truncated: { path: path.slice(0, -1) },
    ...flips(path, 16),
  };
}

/** Each element of the path with one bit of its first byte turned over. */
const flips = (path: readonly string[], bit: number): Readonly<Record<string, { readonly path: readonly string[] }>> =>
  Object.fromEntries(
    path.map((digest, at) => {
      const first = Number.parseInt(digest.slice(0, 2), 16) ^ bit;
      return [`bit of ${at}`, { path: path.with(at, first.toString(16).padStart(2, '0') + digest.slice(2)) }];
    }),
  );

const asHex = (text: string): string => Buffer.from(text).toString('hex');

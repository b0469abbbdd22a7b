import { expect, test } from 'vitest';
import { digestOf, leafDigest } from '../../src/ledger/leaf.ts';
import vectors from './data/sha256-and-leaves.json' with { type: 'json' };

test.each(vectors.sha256)(`SHA-256 is $sha256: ${vectors.source[0]}`, (vector) => {
  const message = vector.ascii ?? (vector.repeat ?? '').repeat(vector.count ?? 0);
  expect(digestOf(Buffer.from(message))).toBe(vector.sha256);
});

test.each(vectors.leaves)(`leaf of the bytes "$inputHex" is $leaf: ${vectors.source[1]}`, ({ inputHex, leaf }) => {
  expect(leafDigest(Buffer.from(inputHex, 'hex').toString())).toBe(leaf);
});

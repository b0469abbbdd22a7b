import { hash } from 'node:crypto';
import type { Digest } from '../base/brand.ts';

/**
 * What must be kept of a Merkle tree to go on adding leaves: O(log n) digests, however many leaves there are.
 * `peaks` are the roots of the complete subtrees the leaves fall into, the largest and oldest first: one for each bit set
 * in `size`.
 */
export interface Frontier {
  readonly size: number;
  readonly peaks: readonly Digest[];
}

export const emptyFrontier: Frontier = { size: 0, peaks: [] };

/** The tree with one leaf more; a leaf is `leafDigest` of an entry's text. */
export function grown({ size, peaks }: Frontier, leaf: Digest): Frontier {
  const next = [...peaks];
  pushLeaf(next, size, leaf);
  return { size: size + 1, peaks: next };
}

/** Root as RFC 6962 section 2.1 and RFC 9162 section 2.1.1: of no leaves it is the SHA-256 of nothing. */
export const rootOf = ({ peaks }: Frontier): Digest =>
  peaks.length === 0 ? EMPTY_ROOT : peaks.reduceRight((right, left) => nodeDigest(left, right));

/**
 * Puts leaf number `size` on the stack of peaks in place, for loops over very many leaves. `made` hears of every complete
 * subtree that this leaf finishes, the leaf itself too: its first leaf, the end of its leaves, its root.
 */
export function pushLeaf(peaks: Digest[], size: number, leaf: Digest, made?: Made): void {
  let root = leaf;
  let width = 1;
  made?.(size, size + 1, root);
  while (Math.floor(size / width) % 2 === 1) {
    const left = peaks.pop();
    if (left === undefined) throw new Error(`these are not the peaks of ${size} leaves`);
    root = nodeDigest(left, root);
    width *= 2;
    made?.(size + 1 - width, size + 1, root);
  }
  peaks.push(root);
}

/** The root of a complete subtree: node `place` of a level stands over 2^level leaves, the first of them place·2^level; level 0 are the leaves. */
export type NodeAt = (level: number, place: number) => Digest;

/** The frontier of a tree whose complete subtrees are known. */
export function frontierOf(size: number, nodeAt: NodeAt): Frontier {
  const peaks: Digest[] = [];
  for (let first = 0; first < size; ) {
    const level = Math.floor(Math.log2(size - first));
    peaks.push(nodeAt(level, first / 2 ** level));
    first += 2 ** level;
  }
  return { size, peaks };
}

/** The root over a range of `inclusionRanges` or `consistencyRanges`, from O(log n) nodes. */
export function rangeRoot(nodeAt: NodeAt, { first, end }: Range): Digest {
  const level = Math.log2(end - first);
  if (Number.isInteger(level)) return nodeAt(level, first / 2 ** level);
  const middle = first + leftWidth(end - first);
  return nodeDigest(rangeRoot(nodeAt, { first, end: middle }), rangeRoot(nodeAt, { first: middle, end }));
}

type Made = (first: number, end: number, root: Digest) => void;

const EMPTY_ROOT = hash('sha256', '', 'hex') as Digest;

/** Hash of an inner node, SHA-256(0x01 ‖ left ‖ right). */
export function nodeDigest(left: Digest, right: Digest): Digest {
  // Too few hexadecimal digits would leave bytes of an earlier node in the block.
  if (block.write(left + right, 1, 'hex') !== 64) throw new Error('a digest has 64 hexadecimal digits');
  return hash('sha256', block, 'hex') as Digest;
}

/** One block for all: a verification makes a million nodes. */
const block = Buffer.alloc(65, 1);

/** Whether a text from outside is a digest as this program writes it. */
export const isDigest = (text: string): text is Digest => /^[0-9a-f]{64}$/.test(text);

/** Leaves `first` to `end`, the last one not counted: a subtree, or all that is left of the tree. */
export interface Range {
  readonly first: number;
  readonly end: number;
}

/** Where RFC 6962 divides `width` leaves (2 or more): the largest power of two below. */
export function leftWidth(width: number): number {
  let left = 1;
  while (left * 2 < width) left *= 2;
  return left;
}

import { hash } from 'node:crypto';

/** The hash of a complete subtree: `level` 0 is a leaf, and node `place` of a level covers leaves place·2^level and on, 2^level of them. */
export type NodeAt = (level: number, place: number) => Uint8Array;

/** Root of a tree without leaves: SHA-256 of nothing. RFC 9162 section 2.1.1. */
const EMPTY_ROOT: Uint8Array = hash('sha256', '', 'buffer');

/** SHA-256(0x01 ‖ left ‖ right), RFC 9162 section 2.1.1. */
export function nodeHash(left: Uint8Array, right: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(65);
  bytes[0] = 1;
  bytes.set(left, 1);
  bytes.set(right, 33);
  return hash('sha256', bytes, 'buffer');
}

/**
 * The right edge of a growing tree: the roots of its largest complete subtrees, as many as its size has ones in binary. That is
 * all it takes to add a leaf and to tell the root, so an append costs O(log n) at worst and two hashes on average.
 */
export class TreeEdge {
  #size = 0;
  /** Largest subtree first. */
  readonly #roots: Uint8Array[] = [];

  /** The edge of a tree of `size` leaves whose complete nodes are known. */
  static of(size: number, nodeAt: NodeAt): TreeEdge {
    const edge = new TreeEdge();
    edge.#size = size;
    for (let level = levelsOf(size), covered = 0; level >= 0; level--) {
      const width = 2 ** level;
      if (covered + width > size) continue;
      edge.#roots.push(nodeAt(level, covered / width));
      covered += width;
    }
    return edge;
  }

  get size(): number {
    return this.#size;
  }

  /** Adds a leaf hash; tells of every node that is complete with it, the lowest first. */
  add(leaf: Uint8Array, complete: (level: number, place: number, hash: Uint8Array) => void = () => {}): void {
    let node = leaf;
    let place = this.#size;
    for (let level = 1; place % 2 === 1; level++) {
      node = nodeHash(this.#roots.pop() ?? EMPTY_ROOT, node);
      place = (place - 1) / 2;
      complete(level, place, node);
    }
    this.#roots.push(node);
    this.#size++;
  }

  root(): Uint8Array {
    const [last, ...larger] = this.#roots.toReversed();
    return last ? larger.reduce((right, left) => nodeHash(left, right), last) : EMPTY_ROOT;
  }
}

/** Root of the first `size` leaves. */
export const rootOf = (nodeAt: NodeAt, size: number): Uint8Array =>
  size === 0 ? EMPTY_ROOT : covering(nodeAt, 0, size);

/** The hashes that lead from leaf `index` to the root of the first `size` leaves, lowest first. RFC 9162 section 2.1.3.1. */
export function inclusionPath(nodeAt: NodeAt, index: number, size: number): readonly Uint8Array[] {
  if (!(index >= 0 && index < size)) throw new RangeError(`leaf ${index} is not among ${size}`);
  const path: Uint8Array[] = [];
  let from = 0;
  let width = size;
  while (width > 1) {
    const left = largestPowerBelow(width);
    const inLeft = index < from + left;
    path.push(inLeft ? covering(nodeAt, from + left, width - left) : covering(nodeAt, from, left));
    if (!inLeft) from += left;
    width = inLeft ? left : width - left;
  }
  return path.reverse();
}

/** The hashes that show the tree of `size` leaves to begin with its first `older` ones, 0 < older ≤ size. RFC 9162 section 2.1.4.1. */
export function consistencyPath(nodeAt: NodeAt, older: number, size: number): readonly Uint8Array[] {
  if (!(older > 0 && older <= size)) throw new RangeError(`${older} leaves are no beginning of ${size}`);
  const path: Uint8Array[] = [];
  let from = 0;
  let width = size;
  let rest = older;
  let known = true;
  while (rest !== width) {
    const left = largestPowerBelow(width);
    if (rest <= left) {
      path.push(covering(nodeAt, from + left, width - left));
      width = left;
    } else {
      path.push(covering(nodeAt, from, left));
      from += left;
      rest -= left;
      width -= left;
      known = false;
    }
  }
  if (!known) path.push(covering(nodeAt, from, width));
  return path.reverse();
}

/** Root over `width` leaves from `from` on, which is a multiple of the power of two at or above `width`. */
function covering(nodeAt: NodeAt, from: number, width: number): Uint8Array {
  const level = Math.log2(width);
  if (Number.isInteger(level)) return nodeAt(level, from / width);
  const left = largestPowerBelow(width);
  return nodeHash(nodeAt(Math.log2(left), from / left), covering(nodeAt, from + left, width - left));
}

/** Largest power of two that is smaller than `width`, for a width of 2 and more. */
const largestPowerBelow = (width: number): number => 2 ** (Math.ceil(Math.log2(width)) - 1);

const levelsOf = (size: number): number => (size === 0 ? -1 : Math.floor(Math.log2(size)));

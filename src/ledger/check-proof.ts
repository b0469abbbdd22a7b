import { nodeHash } from './tree.ts';

/** What an inclusion proof claims: this leaf stands at `index` among `size` leaves with this root. */
export interface Inclusion {
  readonly leaf: Uint8Array;
  readonly index: number;
  readonly size: number;
  readonly root: Uint8Array;
  readonly path: readonly Uint8Array[];
}

/** Whether the path proves it. RFC 9162 section 2.1.3.2. */
export function provesInclusion({ leaf, index, size, root, path }: Inclusion): boolean {
  if (!Number.isSafeInteger(index) || !Number.isSafeInteger(size) || index < 0 || index >= size) return false;
  let at = { here: index, last: size - 1 };
  let hash = leaf;
  for (const other of path) {
    if (at.last === 0) return false;
    if (isOdd(at.here) || at.here === at.last) {
      hash = nodeHash(other, hash);
      at = pastLefts(at);
    } else hash = nodeHash(hash, other);
    at = up(at);
  }
  return at.last === 0 && same(hash, root);
}

/** What a consistency proof claims: the tree of `size` leaves begins with the tree of `older` leaves. */
export interface Consistency {
  readonly older: number;
  readonly olderRoot: Uint8Array;
  readonly size: number;
  readonly root: Uint8Array;
  readonly path: readonly Uint8Array[];
}

/** Whether the path proves it. RFC 9162 section 2.1.4.2. A tree without leaves is the beginning of none: nothing would be proved. */
export function provesConsistency({ older, olderRoot, size, root, path }: Consistency): boolean {
  if (!Number.isSafeInteger(older) || !Number.isSafeInteger(size) || older < 1 || older > size) return false;
  if (older === size) return path.length === 0 && same(olderRoot, root);
  const [first, ...rest] = Number.isInteger(Math.log2(older)) ? [olderRoot, ...path] : path;
  if (!first || path.length === 0) return false;
  let at = { here: older - 1, last: size - 1 };
  while (isOdd(at.here)) at = up(at);
  let before = first;
  let now = first;
  for (const other of rest) {
    if (at.last === 0) return false;
    if (isOdd(at.here) || at.here === at.last) {
      before = nodeHash(other, before);
      now = nodeHash(other, now);
      at = pastLefts(at);
    } else now = nodeHash(now, other);
    at = up(at);
  }
  return at.last === 0 && same(before, olderRoot) && same(now, root);
}

/** A node and the last node of its level, by their places. */
interface Level {
  readonly here: number;
  readonly last: number;
}

const isOdd = (n: number): boolean => n % 2 === 1;
// Halving instead of shifting: places may need more than 32 bits.
const up = ({ here, last }: Level): Level => ({ here: Math.floor(here / 2), last: Math.floor(last / 2) });

/** Past the levels on which this node, the last one, has no sibling. */
function pastLefts(level: Level): Level {
  let at = level;
  while (at.here !== 0 && !isOdd(at.here)) at = up(at);
  return at;
}

const same = (a: Uint8Array, b: Uint8Array): boolean => a.length === b.length && a.every((byte, i) => byte === b[i]);

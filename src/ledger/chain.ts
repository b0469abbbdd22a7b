import type { Digest } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { type Checkpoint, openCheckpoint } from './checkpoint.ts';
import { leafDigest } from './leaf.ts';
import type { LedgerBytes } from './ledger-bytes.ts';
import type { VerifierKey } from './note-key.ts';
import { pushLeaf, rootOf } from './tree.ts';

/** A checkpoint kept elsewhere, whose tree the ledger must have grown from. */
export interface Before {
  readonly size: number;
  readonly root: Digest;
}

/** What is wrong, and the first entry that it may be. */
interface ChainFault {
  readonly entry: number;
  readonly rule: string;
  readonly message: string;
}

/**
 * The hashes of a ledger, worked out anew entry by entry and held against what is kept: leaves, nodes of the tree, checkpoints.
 * Shares nothing with the code that writes but the hash itself.
 */
export class Chain {
  readonly #bytes: LedgerBytes;
  readonly #peaks: Digest[] = [];
  #size = 0;
  readonly #levels: Iterator<{ readonly place: unknown; readonly hash: unknown }>[] = [];
  readonly #checkpoints: readonly { readonly size: unknown; readonly note: unknown }[];
  readonly #before: Before | undefined;
  #reached = 0;

  constructor(bytes: LedgerBytes, before: Before | undefined) {
    this.#bytes = bytes;
    this.#checkpoints = bytes.checkpoints();
    this.#before = before;
  }

  get size(): number {
    return this.#size;
  }
  root(): Digest {
    return rootOf({ size: this.#size, peaks: this.#peaks });
  }
  /** How many entries the last checkpoint that was reached covers, and how many checkpoints that were. */
  get signed(): { readonly size: number; readonly checkpoints: number } {
    return { size: Number(this.#checkpoints[this.#reached - 1]?.size ?? 0), checkpoints: this.#reached };
  }

  /** Adds an entry's text; what is wrong when its leaf, or a node that is complete with it, is not what is kept. */
  add(text: string, kept: unknown): ChainFault | undefined {
    const leaf = leafDigest(text);
    const seq = this.#size;
    if (!isBytesOf(kept, leaf))
      return { entry: seq, rule: 'leaf', message: 'it does not come to the hash that was kept for it' };
    let wrong: ChainFault | undefined;
    pushLeaf(this.#peaks, this.#size++, leaf, (first, end, root) => {
      const width = end - first;
      if (width === 1) return;
      const level = Math.log2(width);
      this.#levels[level] ??= this.#bytes.level(level);
      const row = this.#levels[level].next().value;
      if (row?.place !== first / width || !isBytesOf(row.hash, root))
        wrong ??= {
          entry: first,
          rule: 'tree',
          message: `it, or one of those up to entry ${seq}, is not what the tree of hashes was kept over`,
        };
    });
    return wrong;
  }

  /** Holds every checkpoint of just this size against the tree; `keys` are those the ledger has named so far. */
  check(keys: readonly VerifierKey[]): Result<void> {
    if (this.#before?.size === this.size && this.root() !== this.#before.root)
      return refuse(
        'history',
        `the first ${this.size} entries are not those that the checkpoint kept elsewhere was signed over: history was rewritten`,
      );
    const next = this.#checkpoints[this.#reached];
    if (next?.size !== this.size) return ok(undefined);
    const read = openedBy(keys, String(next.note));
    if (!read.ok)
      return refuse('checkpoint', `the checkpoint over ${this.size} entries does not hold. ${read.error.message}`);
    if (read.value.size !== this.size || read.value.root !== this.root())
      return refuse('checkpoint', `the checkpoint over ${this.size} entries was signed over others`);
    this.#reached++;
    return ok(undefined);
  }

  /** What is left over at the end: nodes and checkpoints of entries that are not there, or a history that is too short. */
  end(keys: readonly VerifierKey[]): Result<void> {
    if (this.#before && this.#before.size > this.size)
      return refuse(
        'history',
        `there are ${this.size} entries, and the checkpoint kept elsewhere was signed over ${this.#before.size}: the end was cut off`,
      );
    const left = this.#checkpoints[this.#reached];
    if (left) return refuse('checkpoint', this.#leftOver(left, keys));
    for (let level = 1; level <= this.#bytes.levels; level++) {
      const rows = this.#levels[level] ?? this.#bytes.level(level);
      if (!rows.next().done)
        return refuse('tree', 'hashes were kept over entries that are not there: the end was cut off');
    }
    return ok(undefined);
  }

  /** A checkpoint that no number of entries came to: signed over entries that are gone, or kept under a number that is not its own. */
  #leftOver({ size, note }: { readonly size: unknown; readonly note: unknown }, keys: readonly VerifierKey[]): string {
    const kept = String(size);
    const read = openedBy(keys, String(note));
    if (!read.ok) return `the checkpoint over ${kept} entries does not hold. ${read.error.message}`;
    if (read.value.size !== size)
      return `a checkpoint was signed over ${read.value.size} entries and is kept as one over ${kept}: it was altered`;
    return `a checkpoint was signed over ${kept} entries, and ${this.size} are there: the end was cut off`;
  }
}

/** The checkpoint, when one of these keys signed it; refused as the newest of them sees it. */
function openedBy(keys: readonly VerifierKey[], note: string): Result<Checkpoint> {
  const read = keys.map((key) => openCheckpoint(note, key));
  return read.find(({ ok }) => ok) ?? read.at(-1) ?? refuse('key', 'No entry before it names a key.');
}

const isBytesOf = (bytes: unknown, digest: Digest): boolean =>
  bytes instanceof Uint8Array && Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString('hex') === digest;

import { ok, type Result, refuse } from '../base/result.ts';
import { readCheckpoint } from './checkpoint.ts';
import { leafBytes } from './leaf.ts';
import type { LedgerBytes } from './ledger-bytes.ts';
import { openNote, type VerifierKey } from './signed-note.ts';
import { TreeEdge } from './tree.ts';

/** A checkpoint kept elsewhere, whose tree the ledger must have grown from. */
export interface Before {
  readonly size: number;
  readonly root: Uint8Array;
}

/**
 * The hashes of a ledger, worked out anew entry by entry and held against what is kept: leaves, nodes of the tree, checkpoints.
 * Shares nothing with the code that writes but the hash itself.
 */
export class Chain {
  readonly #bytes: LedgerBytes;
  readonly #edge = new TreeEdge();
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
    return this.#edge.size;
  }
  root(): Uint8Array {
    return this.#edge.root();
  }
  /** How many entries the last checkpoint that was reached covers, and how many checkpoints that were. */
  get signed(): { readonly size: number; readonly checkpoints: number } {
    return { size: Number(this.#checkpoints[this.#reached - 1]?.size ?? 0), checkpoints: this.#reached };
  }

  /** Adds an entry's text; refuses when its leaf, or a node that is complete with it, is not what is kept. */
  add(text: string, kept: unknown): Result<void> {
    const leaf = leafBytes(text);
    if (!same(leaf, kept)) return refuse('leaf', 'it does not come to the hash that was kept for it');
    let wrong: string | undefined;
    this.#edge.add(leaf, (level, place, hash) => {
      this.#levels[level] ??= this.#bytes.level(level);
      const row = this.#levels[level].next().value;
      if (row?.place !== place || !same(hash, row.hash))
        wrong = 'it does not fit into the tree of hashes that was kept over the entries before it';
    });
    return wrong === undefined ? ok(undefined) : refuse('tree', wrong);
  }

  /** Holds every checkpoint of just this size against the tree; `keys` are those the ledger has named so far. */
  check(keys: readonly VerifierKey[]): Result<void> {
    if (this.#before?.size === this.size && !same(this.root(), this.#before.root))
      return refuse(
        'history',
        `the first ${this.size} entries are not those that the checkpoint kept elsewhere was signed over: history was rewritten`,
      );
    const next = this.#checkpoints[this.#reached];
    if (next?.size !== this.size) return ok(undefined);
    const text = typeof next.note === 'string' ? openNote(next.note, keys) : refuse('note', 'It is no text.');
    const read = text.ok ? readCheckpoint(text.value) : text;
    if (!read.ok)
      return refuse('checkpoint', `the checkpoint over ${this.size} entries does not hold. ${read.error.message}`);
    if (
      read.value.origin !== this.#bytes.station ||
      read.value.size !== this.size ||
      !same(this.root(), read.value.root)
    )
      return refuse('checkpoint', `the checkpoint over ${this.size} entries was signed over others`);
    this.#reached++;
    return ok(undefined);
  }

  /** What is left over at the end: nodes and checkpoints of entries that are not there, or a history that is too short. */
  end(): Result<void> {
    if (this.#before && this.#before.size > this.size)
      return refuse(
        'history',
        `there are ${this.size} entries, and the checkpoint kept elsewhere was signed over ${this.#before.size}: the end was cut off`,
      );
    const left = this.#checkpoints[this.#reached];
    if (left)
      return refuse(
        'checkpoint',
        `a checkpoint was signed over ${String(left.size)} entries, and ${this.size} are there: the end was cut off`,
      );
    for (let level = 1; level <= this.#bytes.levels; level++) {
      const rows = this.#levels[level] ?? this.#bytes.level(level);
      if (!rows.next().done)
        return refuse('tree', 'hashes were kept over entries that are not there: the end was cut off');
    }
    return ok(undefined);
  }
}

const same = (a: Uint8Array, b: unknown): boolean => b instanceof Uint8Array && Buffer.compare(a, b) === 0;

import type { Digest } from '../base/brand.ts';
import type { Draft, Entry } from './entry.ts';
import type { SigningKey } from './note-key.ts';
import type { NodeAt } from './tree.ts';

/** An entry with the canonical text it was hashed from and its leaf hash, SHA-256(0x00 ‖ bytes) in hexadecimal. */
export interface StoredEntry {
  readonly entry: Entry;
  readonly text: string;
  readonly leaf: Digest;
}

/** Conditions that all hold; none asked for means every entry. */
export interface EntryFilter {
  readonly ticket?: string;
  readonly hand?: string;
  readonly kinds?: readonly string[];
  /** Only entries with a greater seq. */
  readonly after?: number;
}

/** A released procedure text or picture, kept under the digest of its bytes. */
export interface KeptText {
  readonly digest: Digest;
  /** Where it stood when released, relative to the room, such as `procedures/LIN-2207.md`. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface LedgerTree {
  /** How many entries it covers. */
  readonly size: number;
  readonly nodeAt: NodeAt;
}

export type Appended =
  | { readonly outcome: 'appended'; readonly entries: readonly StoredEntry[] }
  /** Somebody wrote first: nothing was written; read what is new, decide again. */
  | { readonly outcome: 'moved'; readonly head: number };

/**
 * Append-only store of one station's entries.
 *
 * Durability: when `append` resolves with `appended`, the entries survive a power cut. Order: `seq` counts from 0 without
 * gaps; all drafts of one call become neighbours or none is written. Concurrency: several processes may hold one ledger
 * open; `append` writes only when the last seq is still `head`. A broken machine (disk full, locked, read-only, damaged)
 * rejects with a `StoreTrouble`, whose message is one plain sentence with the way out.
 *
 * Retries: an append that rejected, or whose process died before it answered, may be on disk all the same. So nobody sends
 * the same drafts again by themselves: after `moved`, after a rejection and after a restart the caller reads what stands
 * after the head it knew (`read({ after: head })`), folds it, and decides again; a command whose entries are already there
 * is then refused or empty by the rules of the bundle, and is not written twice.
 */
export interface LedgerStore {
  /** The station whose name is written into entries. */
  readonly station: string;
  /** Seq of the last entry; -1 for an empty ledger. */
  head(): Promise<number>;
  append(head: number, drafts: readonly Draft[]): Promise<Appended>;
  /** Entries in order of seq. Meant for one bundle or one kind, not for a million rows. */
  read(filter: EntryFilter): Promise<readonly StoredEntry[]>;
  /**
   * Keeps texts and pictures by digest, all or none, idempotently: bytes already kept stay under the name they have. Durable
   * when resolved. Call it before the entry that names them. A digest that is not that of the bytes is a bug and rejects.
   */
  keep(texts: readonly KeptText[]): Promise<void>;
  kept(digest: Digest): Promise<KeptText | undefined>;
  /** The hash tree over all entries so far. Its nodes stay what they are and can be asked for as long as the ledger is open. */
  tree(): Promise<LedgerTree>;
  /**
   * Signs the ledger as it stands, unless the newest checkpoint says just that, and returns that checkpoint (a signed note). It is
   * on disk when this resolves.
   */
  seal(key: SigningKey): Promise<string>;
  /** All checkpoints, oldest first. */
  checkpoints(): Promise<readonly string[]>;
  /** Lets go of the files; closing twice is harmless. */
  close(): Promise<void>;
}

/** The ledger or the room cannot be used; `message` is one plain sentence with the way out. */
export class StoreTrouble extends Error {
  override readonly name = 'StoreTrouble';
}

import type { Digest } from '../base/brand.ts';

/** What a ledger file holds, as it lies there: nothing has been checked, and any value may be of any type. */
export interface LedgerBytes {
  /** What is wrong with the file itself before anything in it is read; undefined where it is sound. */
  trouble(): string | undefined;
  readonly station: unknown;
  /** Rows in order of seq. */
  entries(): Iterable<{ readonly seq: unknown; readonly text: unknown; readonly leaf: unknown }>;
  /** The hashes kept for one level of the tree, in order of place. */
  level(level: number): Iterator<{ readonly place: unknown; readonly hash: unknown }>;
  /** The highest level kept; 0 where none is. */
  readonly levels: number;
  /** In order of size. */
  checkpoints(): readonly { readonly size: unknown; readonly note: unknown }[];
  /** Digests of all texts and pictures that are kept, with those of their bytes as they are. */
  texts(): Iterable<{ readonly digest: string; readonly name: unknown; readonly found: Digest }>;
  /** The bytes kept under this digest. */
  text(digest: Digest): Uint8Array | undefined;
}

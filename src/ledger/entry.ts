/** JSON as RFC 8785 can write it: finite numbers, well-formed strings. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** What a writer hands to the ledger; the ledger gives it its station and its place. */
export interface Draft {
  /** RFC 3339 with offset, from the station's clock. */
  readonly at: string;
  readonly hand: string;
  readonly kind: string;
  readonly body: { readonly [key: string]: Json };
}

/** One line of the ledger. Its bytes are the RFC 8785 canonical JSON of exactly these members. */
export interface Entry extends Draft {
  readonly v: 1;
  readonly station: string;
  /** Counts from 0 without gaps within a station; also the index of the entry's leaf. */
  readonly seq: number;
}

import type { SigningKey } from './note-key.ts';

/** Where a station keeps the key it signs with. All may throw `StoreTrouble`. */
export interface KeyPlace {
  /** Undefined where there is none, never made or lost. */
  find(): SigningKey | undefined;
  /** A new key, unless another process has just made one: then that. */
  make(): SigningKey;
  /** A new key in place of whatever is there. */
  replace(): SigningKey;
}

import type { SigningKey } from './note-key.ts';

/** Where a station keeps the key it signs with. All may throw `StoreTrouble`. */
export interface KeyPlace {
  /** Undefined where there is none, never made or lost. */
  find(): SigningKey | undefined;
  /** A new key, unless another process has just made one: then that. */
  make(): SigningKey;
  /** Puts this key in the place of whatever is there. */
  put(key: SigningKey): void;
}

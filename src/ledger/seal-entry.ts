import { canonicalText } from './canonical.ts';
import { decodeEntry } from './decode-entry.ts';
import type { Draft } from './entry.ts';
import { leafDigest } from './leaf.ts';
import type { StoredEntry } from './ledger-store.ts';

/**
 * Gives a draft its station and place, and the text and leaf it will be known by for ever. The text is read back before it
 * is handed out, so that no ledger can hold a line its own reader refuses; a draft that fails this is a bug and throws.
 */
export function sealEntry(station: string, seq: number, { at, hand, kind, body }: Draft): StoredEntry {
  const text = canonicalText({ v: 1, station, seq, at, hand, kind, body });
  const entry = decodeEntry(text);
  if (!entry.ok) throw new Error(`entry ${seq} cannot be written: ${entry.error.message}`);
  return { entry: entry.value, text, leaf: leafDigest(text) };
}

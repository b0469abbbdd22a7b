import { type RecordedEntry, readEntry } from '../bundle/entries.ts';
import type { Entry } from '../ledger/entry.ts';
import { type EntryFilter, type LedgerStore, StoreTrouble } from '../ledger/ledger-store.ts';

/** Entries of the ledger with their meaning; rejects with `StoreTrouble` when one has a shape this program does not write. */
export async function readEntries(store: LedgerStore, filter: EntryFilter): Promise<readonly RecordedEntry[]> {
  return (await store.read(filter)).map(({ entry }) => understood(entry));
}

export function understood(entry: Entry): RecordedEntry {
  const read = readEntry(entry);
  if (!read.ok) throw new StoreTrouble(read.error.message);
  return read.value;
}

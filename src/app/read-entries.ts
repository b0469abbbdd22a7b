import { type RecordedEntry, readEntry } from '../bundle/entries.ts';
import type { Entry } from '../ledger/entry.ts';
import { type EntryFilter, type LedgerStore, StoreTrouble } from '../ledger/ledger-store.ts';

/**
 * Entries of the ledger with their meaning; rejects with `StoreTrouble` when one has a shape this program does not write, or when
 * a bundle that is read whole has a gap.
 */
export async function readEntries(store: LedgerStore, filter: EntryFilter): Promise<readonly RecordedEntry[]> {
  const entries = (await store.read(filter)).map(({ entry }) => understood(entry));
  const { ticket, hand, kinds, after } = filter;
  const isWhole = hand === undefined && kinds === undefined && after === undefined;
  if (ticket !== undefined && isWhole && !countThemselves(entries)) {
    throw new StoreTrouble(
      `Entries of ${ticket} are missing, so the ledger is damaged: stop work, keep it as it is, and put back the last good copy of the room.`,
    );
  }
  return entries;
}

export function understood(entry: Entry): RecordedEntry {
  const read = readEntry(entry);
  if (!read.ok) throw new StoreTrouble(read.error.message);
  return read.value;
}

/** A damaged index finds some of a bundle's entries and not others; from the one that made the ticket on, each says its number. */
const countThemselves = (entries: readonly RecordedEntry[]): boolean =>
  entries.every(({ kind, body }, at) => (at === 0 ? kind === 'ticketed' : 'nth' in body && body.nth === at));

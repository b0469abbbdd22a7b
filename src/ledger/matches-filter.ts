import type { Entry } from './entry.ts';
import type { EntryFilter } from './ledger-store.ts';

/** Whether the entry meets every condition of the filter. An entry belongs to a ticket when its body's `ticket` is that text. */
export function matchesFilter(entry: Entry, { ticket, hand, kinds, after }: EntryFilter): boolean {
  return (
    (ticket === undefined || entry.body.ticket === ticket) &&
    (hand === undefined || entry.hand === hand) &&
    (kinds === undefined || kinds.includes(entry.kind)) &&
    (after === undefined || entry.seq > after)
  );
}

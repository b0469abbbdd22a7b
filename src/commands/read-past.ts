import { readEntries } from '../app/read-entries.ts';
import { keptProcedure } from '../app/understood.ts';
import type { Digest } from '../base/brand.ts';
import type { EntryKind, RecordedEntry } from '../bundle/entries.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import type { Procedure } from '../procedure/procedure.ts';

/** All entries of the bundles that an entry of this kind names. */
export async function ofTickets(
  store: LedgerStore,
  kind: EntryKind,
  named: (entry: RecordedEntry) => string | undefined,
): Promise<readonly RecordedEntry[]> {
  const tickets = new Set((await readEntries(store, { kinds: [kind] })).map(named));
  const bundles: (readonly RecordedEntry[])[] = [];
  for (const ticket of tickets) if (ticket !== undefined) bundles.push(await readEntries(store, { ticket }));
  return bundles.flat().sort((a, b) => a.seq - b.seq);
}

interface Texts {
  /** The procedures these bundles were opened with, as far as they are kept, by the digest of their understanding. */
  readonly texts: ReadonlyMap<Digest, Procedure>;
  /** Why one of them cannot be shown: a release keeps its text, so that it is gone is a damage. */
  readonly lost: string | undefined;
}

/** The texts that these entries were played from. */
export async function textsOf(store: LedgerStore, entries: readonly RecordedEntry[]): Promise<Texts> {
  const texts = new Map<Digest, Procedure>();
  let lost: string | undefined;
  for (const understood of new Set(
    entries.flatMap((entry) => (entry.kind === 'opened' ? [entry.body.understood] : [])),
  )) {
    const text = await keptProcedure(store, understood);
    if (text.ok) texts.set(understood, text.value);
    else lost ??= text.error.message;
  }
  return { texts, lost };
}

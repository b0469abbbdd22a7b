import type { Digest, TicketId } from '../base/brand.ts';
import type { Bundle } from '../bundle/bundle.ts';
import type { RecordedEntry } from '../bundle/entries.ts';
import { evolve } from '../bundle/evolve.ts';
import type { Room } from '../bundle/room.ts';
import { type Spent, spent } from '../bundle/spent.ts';
import type { Procedure, Step } from '../procedure/procedure.ts';

/** What an answer needs to know beside the entries. */
export interface PastSources {
  readonly room: Room;
  /** Procedures by the digest of their understanding, as far as they are kept. */
  readonly texts: ReadonlyMap<Digest, Procedure>;
}

/** What happened, with what came of it: every question is answered from this. */
export interface Past extends PastSources {
  /** In the order of the ledger; all that a bundle has, or none of it. */
  readonly entries: readonly RecordedEntry[];
  /** As they stand after the last of the entries. */
  readonly bundles: ReadonlyMap<TicketId, Bundle>;
  /** By seq, for entries of bundles after their ticket. */
  readonly spent: ReadonlyMap<number, Spent>;
}

export function pastOf(entries: readonly RecordedEntry[], sources: PastSources): Past {
  const bundles = new Map<TicketId, Bundle>();
  const times = new Map<number, Spent>();
  for (const entry of entries) {
    if (!('ticket' in entry.body)) continue;
    const before = bundles.get(entry.body.ticket);
    if (before) times.set(entry.seq, spent(before, entry));
    const after = evolve(before, entry);
    if (after) bundles.set(entry.body.ticket, after);
  }
  return { ...sources, entries, bundles, spent: times };
}

/** The text a bundle is on, from its opening on and as far as it is kept. */
export function textOf({ bundles, texts }: Past, ticket: TicketId | null): Procedure | undefined {
  const text = ticket === null ? null : bundles.get(ticket)?.text;
  return text ? texts.get(text.understood) : undefined;
}

export const stepsOf = (past: Past, ticket: TicketId | null): readonly Step[] => textOf(past, ticket)?.steps ?? [];

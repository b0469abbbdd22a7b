import { findAnyHand } from '../app/find-hand.ts';
import { readEntries } from '../app/read-entries.ts';
import { keptProcedure } from '../app/understood.ts';
import type { Digest } from '../base/brand.ts';
import { parseStamp } from '../base/instant.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import type { RecordedEntry } from '../bundle/entries.ts';
import { emptyRoom, evolveRoom, type Room } from '../bundle/room.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { type WhoRow, whoRows } from '../reports/who.ts';
import { whoText } from '../reports/who-text.ts';
import { inRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, sayJson, widthOf } from './io.ts';

interface WhoOptions extends RoomOption {
  readonly hand?: string;
  readonly step?: string;
  readonly since?: string;
  readonly until?: string;
  readonly json?: boolean;
  readonly csv?: boolean;
}

/** Who did which step of which bundle, when, with which readings. */
export function who(ticket: string | undefined, options: WhoOptions, io: Io): Promise<ExitCode> {
  return inRoom(options, io, async ({ store }) => {
    const room = (await readEntries(store, { kinds: peopleAndTexts })).reduce(evolveRoom, emptyRoom);
    const asked = question(room, options, io);
    if (!asked.ok) return cannot(io, asked.error.message);
    const entries = ticket === undefined ? await readEntries(store, {}) : await ofTicket(store, ticket);
    if (ticket !== undefined && entries.length === 0)
      return cannot(io, `There is no ticket ${ticket} in this room: look at its label.`);
    const rows = whoRows(entries, { room, texts: await textsOf(store, room, entries) }).filter(asked.value);
    if (options.json) sayJson(io, rows);
    else if (options.csv) io.out((await import('../reports/who-csv.ts')).whoCsv(rows));
    else
      io.out(
        rows.length === 0 ? 'Nothing is recorded that answers this.\n' : `${whoText(rows, widthOf(io)).join('\n')}\n`,
      );
    return 0;
  });
}

/** All that an answer needs to know of the room; its other entries are left unread. */
const peopleAndTexts = ['enrolled', 'retired', 'released', 'withdrawn'] as const;

/** A ticket is typed in letters of either case, and mostly written in capitals. */
async function ofTicket(store: LedgerStore, ticket: string): Promise<readonly RecordedEntry[]> {
  const exact = await readEntries(store, { ticket });
  return exact.length > 0 ? exact : readEntries(store, { ticket: ticket.toUpperCase() });
}

/** Which rows answer the question. */
function question(room: Room, options: WhoOptions, io: Io): Result<(row: WhoRow) => boolean> {
  const hand = options.hand === undefined ? undefined : findAnyHand(room, options.hand);
  if (hand && !hand.ok) return hand;
  if (options.step !== undefined && !/^\d{1,4}$/.test(options.step))
    return refuse('step-number', `--step takes a step’s number, not ${options.step}.`);
  const since = momentOf(options.since, 'start', io);
  const until = momentOf(options.until, 'end', io);
  if (since === null || until === null)
    return refuse(
      'moment',
      'A time is given as a day, such as 2026-11-25, or as a full RFC 3339 time, such as 2026-11-25T10:42:00+01:00.',
    );
  return ok((row) => {
    const ms = parseStamp(row.at)?.ms ?? 0;
    return (
      (hand === undefined || row.hand === hand.value.id) &&
      (options.step === undefined || row.step === Number(options.step)) &&
      (since === undefined || ms >= since) &&
      (until === undefined || ms <= until)
    );
  });
}

/** A day stands for its first or last moment on this station's clock; null when the words are no time. */
function momentOf(said: string | undefined, edge: 'start' | 'end', io: Io): number | undefined | null {
  if (said === undefined) return undefined;
  const full = parseStamp(said);
  if (full) return full.ms;
  if (!/^\d{4}-\d{2}-\d{2}$/.test(said)) return null;
  const { offset } = io.clock();
  const midnight = parseStamp(`${said}T00:00:00Z`);
  if (!midnight) return null;
  return midnight.ms - offset * 60_000 + (edge === 'end' ? DAY_MS - 1 : 0);
}

const DAY_MS = 86_400_000;

/** The procedures these entries were played from, as far as they are kept, by the digest of their text. */
async function textsOf(
  store: LedgerStore,
  room: Room,
  entries: readonly RecordedEntry[],
): Promise<ReadonlyMap<Digest, Procedure>> {
  const played = new Set(entries.flatMap(({ body }) => ('digest' in body ? [body.digest] : [])));
  const texts = new Map<Digest, Procedure>();
  for (const { digest, understood } of [...room.releases.values()].flat()) {
    const text = played.has(digest) ? await keptProcedure(store, understood) : undefined;
    if (text?.ok) texts.set(digest, text.value);
  }
  return texts;
}

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
    const asked = question(room, options);
    if (!asked.ok) return cannot(io, asked.error.message);
    const entries = ticket === undefined ? await readEntries(store, {}) : await ofTicket(store, ticket);
    if (ticket !== undefined && entries.length === 0)
      return cannot(io, `There is no ticket ${ticket} in this room: look at its label.`);
    const rows = whoRows(entries, { room, texts: await textsOf(store, entries) }).filter(asked.value);
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
function question(room: Room, options: WhoOptions): Result<(row: WhoRow) => boolean> {
  const hand = options.hand === undefined ? undefined : findAnyHand(room, options.hand);
  if (hand && !hand.ok) return hand;
  if (options.step !== undefined && !/^\d{1,4}$/.test(options.step))
    return refuse('step-number', `--step takes a step’s number, not ${options.step}.`);
  const since = edgeOf(options.since);
  const until = edgeOf(options.until);
  if (!since || !until)
    return refuse(
      'moment',
      'A time is given as a day, such as 2026-11-25, or as a full RFC 3339 time, such as 2026-11-25T10:42:00+01:00.',
    );
  if (options.since && options.until && since(options.until) < 0)
    return refuse('moment', `--until ${options.until} is before --since ${options.since}: turn them round.`);
  return ok(
    (row) =>
      (hand === undefined || row.hand === hand.value.id) &&
      (options.step === undefined || row.step === Number(options.step)) &&
      since(row.at) >= 0 &&
      until(row.at) <= 0,
  );
}

/**
 * How a stamp stands to the edge of a span of time: below 0 before it, above 0 after it, 0 on it. A day is the day on the wall of
 * the station that wrote the stamp, with all its hours. Undefined when the words are no time.
 */
function edgeOf(said: string | undefined): ((at: string) => number) | undefined {
  if (said === undefined) return () => 0;
  const moment = parseStamp(said);
  if (moment) return (at) => (parseStamp(at)?.ms ?? 0) - moment.ms;
  return parseStamp(`${said}T00:00:00Z`) && ((at) => at.slice(0, 10).localeCompare(said));
}

/** The procedures these bundles were opened with, as far as they are kept, by the digest of their understanding. */
async function textsOf(store: LedgerStore, entries: readonly RecordedEntry[]): Promise<ReadonlyMap<Digest, Procedure>> {
  const texts = new Map<Digest, Procedure>();
  for (const understood of new Set(
    entries.flatMap((entry) => (entry.kind === 'opened' ? [entry.body.understood] : [])),
  )) {
    const text = await keptProcedure(store, understood);
    if (text.ok) texts.set(understood, text.value);
  }
  return texts;
}

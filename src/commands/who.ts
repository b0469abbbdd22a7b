import { findAnyHand } from '../app/find-hand.ts';
import type { Digest } from '../base/brand.ts';
import { parseStamp } from '../base/instant.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { type RecordedEntry, readEntry } from '../bundle/entries.ts';
import { StoreTrouble } from '../ledger/ledger-store.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { type WhoRow, whoCsv, whoRows } from '../reports/who.ts';
import { whoText } from '../reports/who-text.ts';
import { inRoom, type OpenRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, widthOf } from './io.ts';

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
  return inRoom(options, io, async (open) => {
    const asked = question(open, ticket, options, io);
    if (!asked.ok) return cannot(io, asked.error.message);
    const entries = (await open.store.read(asked.value.filter)).map(({ entry }) => {
      const read = readEntry(entry);
      if (!read.ok) throw new StoreTrouble(read.error.message);
      return read.value;
    });
    const rows = whoRows(entries, { room: open.ledger.room(), texts: await textsOf(open, entries) }).filter(
      asked.value.keeps,
    );
    if (options.json) io.out(`${JSON.stringify(rows, null, 2)}\n`);
    else if (options.csv) io.out(whoCsv(rows));
    else
      io.out(
        rows.length === 0 ? 'Nothing is recorded that answers this.\n' : `${whoText(rows, widthOf(io)).join('\n')}\n`,
      );
    return 0;
  });
}

interface Asked {
  readonly filter: { readonly ticket?: string };
  readonly keeps: (row: WhoRow) => boolean;
}

function question({ ledger }: OpenRoom, ticket: string | undefined, options: WhoOptions, io: Io): Result<Asked> {
  const known = ledger.bundles().find((bundle) => bundle.ticket.toLowerCase() === ticket?.toLowerCase())?.ticket;
  if (ticket !== undefined && known === undefined)
    return refuse('ticket-unknown', `There is no ticket ${ticket} in this room: look at its label.`);
  const hand = options.hand === undefined ? undefined : findAnyHand(ledger.room(), options.hand);
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
  return ok({
    filter: known === undefined ? {} : { ticket: known },
    keeps: (row) => {
      const ms = parseStamp(row.at)?.ms ?? 0;
      return (
        (hand === undefined || row.hand === hand.value.id) &&
        (options.step === undefined || row.step === Number(options.step)) &&
        (since === undefined || ms >= since) &&
        (until === undefined || ms <= until)
      );
    },
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

async function textsOf(
  { ledger }: OpenRoom,
  entries: readonly RecordedEntry[],
): Promise<ReadonlyMap<Digest, Procedure>> {
  const texts = new Map<Digest, Procedure>();
  for (const { body } of entries) {
    if (!('digest' in body) || texts.has(body.digest)) continue;
    const text = await ledger.procedure(body.digest);
    if (text.ok) texts.set(body.digest, text.value);
  }
  return texts;
}

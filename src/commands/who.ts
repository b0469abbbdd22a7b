import { readEntries } from '../app/read-entries.ts';
import { assertNever } from '../base/assert-never.ts';
import { formatStamp, inUtc } from '../base/instant.ts';
import { ok, type Result } from '../base/result.ts';
import type { RecordedEntry } from '../bundle/entries.ts';
import { emptyRoom, evolveRoom } from '../bundle/room.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import { type Past, pastOf } from '../reports/past.ts';
import { type WhoRow, whoRows } from '../reports/who.ts';
import { inRoom, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, sayJson } from './io.ts';
import { ofTickets, textsOf } from './read-past.ts';
import { type Question, type WhoSaid, whoQuestion } from './who-question.ts';
import { stepIsThere } from './who-step.ts';

interface WhoOptions extends RoomOption, WhoSaid {
  readonly utc?: boolean;
  readonly json?: boolean;
  readonly csv?: boolean;
}

/** Answers an auditor's question from the ledger: who did which step of which bundle, when, with which readings, and the like. */
export function who(ticket: string | undefined, options: WhoOptions, io: Io): Promise<ExitCode> {
  return inRoom(options, io, async ({ store }) => {
    const room = (await readEntries(store, { kinds: peopleAndTexts })).reduce(evolveRoom, emptyRoom);
    const asked = whoQuestion(room, ticket, options);
    if (!asked.ok) return cannot(io, asked.error.message);
    const { question, step, wanted } = asked.value;
    const entries = await entriesFor(store, question, ticket);
    if (ticket !== undefined && entries.length === 0)
      return cannot(io, `There is no ticket ${ticket} in this room: look at its label.`);
    const { texts, lost } = await textsOf(store, entries);
    const past = pastOf(entries, { room, texts });
    const there = step === null ? ok(undefined) : stepIsThere(past, step, ticket);
    if (!there.ok) return cannot(io, there.error.message);
    if (question.ask === 'what a step said') {
      const { sayStepText } = await import('./say-step-text.ts');
      return sayStepText(past, question.step, { ...options, store }, io);
    }
    const found = await answer(question, { past, store, io });
    if (!found.ok) return cannot(io, found.error.message);
    const rows = found.value.filter(wanted).map((row) => (options.utc ? { ...row, at: inUtc(row.at) } : row));
    await sayRows(rows, options, io);
    if (lost === undefined) return 0;
    cannot(io, lost);
    return 1;
  });
}

/** All that an answer needs to know of the room; its other entries are left unread. */
const peopleAndTexts = ['enrolled', 'retired', 'released', 'withdrawn'] as const;

/** Whole bundles, or the whole ledger: what a reading came to is known only from what came after it. */
async function entriesFor(
  store: LedgerStore,
  question: Question,
  ticket: string | undefined,
): Promise<readonly RecordedEntry[]> {
  if (ticket !== undefined) return ofTicket(store, ticket);
  switch (question.ask) {
    case 'what was sewn on':
    case 'who passed':
      return ofTickets(store, 'ticketed', ({ kind, body }) =>
        kind === 'ticketed' && body.procedure === question.sewn.procedure ? body.ticket : undefined,
      );
    case 'what is open':
      return ofTickets(store, 'held', ({ body }) => ('ticket' in body ? body.ticket : undefined));
    case 'what was done':
    case 'what was repeated':
    case 'where a roll went':
    case 'what a step said':
      return readEntries(store, {});
    default:
      return assertNever(question);
  }
}

/** A ticket is typed in letters of either case, and mostly written in capitals. */
async function ofTicket(store: LedgerStore, ticket: string): Promise<readonly RecordedEntry[]> {
  const exact = await readEntries(store, { ticket });
  return exact.length > 0 ? exact : readEntries(store, { ticket: ticket.toUpperCase() });
}

interface AnswerFrom {
  readonly past: Past;
  readonly store: LedgerStore;
  readonly io: Io;
}

async function answer(
  question: Exclude<Question, { readonly ask: 'what a step said' }>,
  { past, store, io }: AnswerFrom,
): Promise<Result<readonly WhoRow[]>> {
  const rows = whoRows(past);
  switch (question.ask) {
    case 'what was done':
      return ok(rows);
    case 'what was repeated':
      return ok((await import('../reports/repeated.ts')).repeated(rows));
    case 'where a roll went':
      return ok((await import('../reports/used-roll.ts')).usedRoll(rows, past, question.roll));
    case 'what was sewn on':
      return ok((await import('../reports/sewn-on.ts')).sewnOn(rows, past, question.sewn));
    case 'who passed':
      return (await import('./who-passed.ts')).whoPassed(rows, past, question, store);
    case 'what is open': {
      const { openHolds, concessions } = await import('../reports/open-matters.ts');
      const today = formatStamp(io.clock()).slice(0, 10);
      const open = question.matters.flatMap((matter) =>
        matter === 'holds' ? openHolds(rows, past) : concessions(rows, past, today),
      );
      return ok(open.sort((a, b) => a.seq - b.seq));
    }
    default:
      return assertNever(question);
  }
}

async function sayRows(rows: readonly WhoRow[], { json, csv }: WhoOptions, io: Io): Promise<void> {
  if (json) sayJson(io, rows);
  else if (csv) io.out((await import('../reports/who-csv.ts')).whoCsv(rows));
  else if (rows.length === 0) io.out('Nothing is recorded that answers this.\n');
  else {
    const { whoReport } = await import('../reports/who-report.ts');
    io.out(`${whoReport(rows, io.stdout.isTTY ? io.stdout.columns : null).join('\n')}\n`);
  }
}

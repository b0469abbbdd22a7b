import type { TicketId } from '../base/brand.ts';
import { allChecks } from '../bundle/bundle.ts';
import type { EntryKind, RecordedEntry } from '../bundle/entries.ts';
import { nameOf, releaseOf } from '../bundle/room.ts';
import { type Past, stepsOf } from './past.ts';
import { saying } from './saying.ts';
import { meaningWords } from './signature-of.ts';

/** One thing that was done, as an auditor reads it, the columns of a table first. Members that do not apply are null. */
export interface WhoRow {
  /** Null for what concerns the room: its hands and its releases. */
  readonly ticket: string | null;
  readonly set: number | null;
  /** The step's number on the revision it was sewn on. */
  readonly step: number | null;
  readonly point: string | null;
  readonly hand: string;
  /** RFC 3339 as it was written, with the station's offset, unless UTC was asked for. */
  readonly at: string;
  /** Seconds of work since the bundle's entry before; 0 where that time was spent otherwise. */
  readonly took: number | null;
  readonly value: string | null;
  readonly unit: string | null;
  readonly limit: string | null;
  readonly verdict: string | null;
  readonly revision: string | null;
  readonly seq: number;
  readonly kind: EntryKind;
  readonly title: string | null;
  readonly place: number | null;
  readonly name: string;
  readonly typed: string | null;
  /** How far outside the limit, in the unit. */
  readonly by: string | null;
  /** The second person of a hold point. */
  readonly witness: string | null;
  /** What the hand (of a hold point: the witness) answers for, and whether a PIN proved it: `done`, `settled with PIN`. */
  readonly meaning: string | null;
  /** Why it was crossed out, when it was. */
  readonly struck: string | null;
  /** Asked again later, because the work went back. */
  readonly again: boolean;
  /** What the reading before this one of the same blank said, and why it does not count; only where that was asked. */
  readonly before: string | null;
  /** The last day of a concession. */
  readonly expires: string | null;
  /** Seconds waited since the bundle's entry before: a hold was open, or a timed clock ran. */
  readonly waited: number | null;
  /** Seconds the bundle lay since its entry before, until somebody opened it or took it up. */
  readonly lay: number | null;
  /** What is to be known of the station's clock, where it was set back. */
  readonly clock: string | null;
  /** The language it was read in, where that was a sheet and not the main text. */
  readonly language: string | null;
  /** When it was done, as the paper says it was typed in from, and who typed it; null where it was recorded at once. */
  readonly doneAt: string | null;
  readonly typedBy: string | null;
  /** Answered with the explanations of the step folded away on the screen. */
  readonly folded: boolean;
}

/** Everything that happened as rows, in its order. A struck check carries its reason; the striking is a row of its own. */
export function whoRows(past: Past): readonly WhoRow[] {
  const { entries, room } = past;
  const places = placesOf(entries);
  const checks = new Map([...past.bundles.values()].flatMap(allChecks).map((check) => [check.seq, check] as const));
  return entries.map((entry) => {
    const ticket = 'ticket' in entry.body ? entry.body.ticket : null;
    const steps = stepsOf(past, ticket);
    const { set, step: id, point: pointId } = placeOf(entry, places);
    const step = steps.find((each) => each.id === id);
    const check = checks.get(entry.seq);
    const row: WhoRow = {
      ticket,
      set,
      step: step?.number ?? null,
      point: step?.points.find((each) => each.id === pointId)?.text ?? pointId,
      hand: entry.hand,
      at: entry.at,
      ...timesOf(past, entry.seq),
      value: saying(entry, room, steps),
      unit: null,
      limit: null,
      verdict: null,
      revision: revisionOf(past, entry, ticket),
      seq: entry.seq,
      kind: entry.kind,
      title: step?.title ?? id,
      place: null,
      name: nameOf(room, entry.hand),
      typed: null,
      by: null,
      witness: null,
      meaning: meaningWords(entry),
      struck: check?.struck?.reason ?? null,
      again: check?.again ?? false,
      before: null,
      expires: null,
      clock: clockWords(entry),
      language: languageOf(past, entry, ticket),
      ...paperOf(past, entry),
      folded: entry.kind === 'checked' && entry.body.folded === true,
    };
    if (entry.kind === 'settled' && entry.body.how.as === 'concession')
      return { ...row, limit: entry.body.how.limit, expires: entry.body.how.expires };
    if (entry.kind !== 'checked') return row;
    const { place, typed, value, unit, limit, verdict, by = null, witness } = entry.body;
    return { ...row, place, typed, value, unit, limit, verdict, by, witness: witness ? nameOf(room, witness) : null };
  });
}

/** A ticket has no revision before it is opened. */
function revisionOf({ bundles }: Past, { kind }: RecordedEntry, ticket: TicketId | null): string | null {
  const bundle = ticket === null || kind === 'ticketed' ? undefined : bundles.get(ticket);
  return bundle?.text?.revision ?? null;
}

function timesOf({ spent }: Past, seq: number): Pick<WhoRow, 'took' | 'waited' | 'lay'> {
  const time = spent.get(seq);
  if (!time) return { took: null, waited: null, lay: null };
  return { took: time.work / 1000, waited: time.waiting / 1000, lay: time.pause / 1000 };
}

interface AtPlace {
  readonly set: number | null;
  readonly step: string | null;
  readonly point: string | null;
}

const NOWHERE: AtPlace = { set: null, step: null, point: null };

/** Where an entry belongs: a settling to where the hold was, a striking to the check it strikes. */
function placeOf(entry: RecordedEntry, places: ReadonlyMap<string, AtPlace>): AtPlace {
  if (entry.kind === 'settled')
    return { ...NOWHERE, ...places.get(`${entry.body.ticket} ${entry.body.hold}`), set: entry.body.set };
  if (entry.kind === 'struck') return places.get(String(entry.body.entry)) ?? NOWHERE;
  return ownPlace(entry);
}

const ownPlace = ({ body }: RecordedEntry): AtPlace => ({
  set: 'set' in body ? body.set : null,
  step: 'step' in body ? body.step : null,
  point: 'point' in body ? body.point : null,
});

function placesOf(entries: readonly RecordedEntry[]): ReadonlyMap<string, AtPlace> {
  const places = new Map<string, AtPlace>();
  for (const entry of entries) {
    if (entry.kind === 'checked') places.set(String(entry.seq), ownPlace(entry));
    if (entry.kind === 'held') places.set(`${entry.body.ticket} ${entry.body.hold}`, ownPlace(entry));
  }
  return places;
}

/** What is to be known of the station's clock at this entry. */
function clockWords({ body }: RecordedEntry): string | null {
  if ('clockWasSetBack' in body && body.clockWasSetBack) return 'set back meanwhile: the time is at least this';
  if ('clockBack' in body && body.clockBack) return `set back by ${Math.round(body.clockBack)} s before this`;
  return null;
}

function paperOf({ room }: Past, { body }: RecordedEntry): Pick<WhoRow, 'doneAt' | 'typedBy'> {
  const paper = 'paper' in body ? body.paper : undefined;
  return { doneAt: paper?.doneAt ?? null, typedBy: paper ? nameOf(room, paper.by) : null };
}

function languageOf({ bundles, room }: Past, { body }: RecordedEntry, ticket: TicketId | null): string | null {
  const sheet = 'sheet' in body ? body.sheet : undefined;
  const bundle = ticket === null ? undefined : bundles.get(ticket);
  const released = sheet && bundle && releaseOf(room, bundle)?.sheets.find(({ digest }) => digest === sheet);
  return released ? released.language : null;
}

import { assertNever } from '../base/assert-never.ts';
import type { Digest, StepId, TicketId } from '../base/brand.ts';
import { allChecks, type Bundle } from '../bundle/bundle.ts';
import type { Body, EntryKind, RecordedEntry, Settling } from '../bundle/entries.ts';
import { evolve } from '../bundle/evolve.ts';
import { nameOf, type Room } from '../bundle/room.ts';
import { levelWords } from '../bundle/skill.ts';
import type { Procedure, Step } from '../procedure/procedure.ts';
import { meaningWords } from './signature-of.ts';

/** One thing that was done, as an auditor reads it. Members that do not apply are null. */
export interface WhoRow {
  /** Null for what concerns the room: its hands and its releases. */
  readonly ticket: string | null;
  readonly kind: EntryKind;
  readonly set: number | null;
  /** The step's number on the revision it was sewn on. */
  readonly step: number | null;
  readonly title: string | null;
  readonly point: string | null;
  readonly place: number | null;
  readonly hand: string;
  readonly name: string;
  readonly at: string;
  readonly typed: string | null;
  readonly value: string | null;
  readonly unit: string | null;
  readonly limit: string | null;
  readonly verdict: string | null;
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
  /** What is to be known of the station's clock, where it was set back. */
  readonly clock: string | null;
  readonly revision: string | null;
  readonly seq: number;
}

/** What `whoRows` needs to know beside the entries. */
export interface WhoSources {
  readonly room: Room;
  /** Procedures by the digest of their understanding, as far as they are kept. */
  readonly texts: ReadonlyMap<Digest, Procedure>;
}

/** Entries as rows, in their order. A struck check carries its reason; the striking is a row of its own. */
export function whoRows(entries: readonly RecordedEntry[], { room, texts }: WhoSources): readonly WhoRow[] {
  const struck = new Map(
    entries.flatMap((each) => (each.kind === 'struck' ? [[each.body.entry, each.body.reason] as const] : [])),
  );
  const again = askedAgain(entries);
  const places = placesOf(entries);
  const opened = new Map<TicketId, Body<'opened'>>();
  return entries.map((entry) => {
    if (entry.kind === 'opened') opened.set(entry.body.ticket, entry.body);
    const ticket = 'ticket' in entry.body ? entry.body.ticket : null;
    const text = ticket === null ? undefined : opened.get(ticket);
    const steps = (text && texts.get(text.understood)?.steps) ?? [];
    const { set, step: id, point: pointId } = placeOf(entry, places);
    const step = steps.find((each) => each.id === id);
    const row: WhoRow = {
      ticket,
      kind: entry.kind,
      set,
      step: step?.number ?? null,
      title: step?.title ?? id,
      point: step?.points.find((each) => each.id === pointId)?.text ?? pointId,
      place: null,
      hand: entry.hand,
      name: nameOf(room, entry.hand),
      at: entry.at,
      typed: null,
      value: saying(entry, room, steps),
      unit: null,
      limit: null,
      verdict: null,
      by: null,
      witness: null,
      meaning: meaningWords(entry),
      struck: struck.get(entry.seq) ?? null,
      again: again.has(entry.seq),
      clock: clockWords(entry),
      revision: text?.revision ?? null,
      seq: entry.seq,
    };
    if (entry.kind !== 'checked') return row;
    const { place, typed, value, unit, limit, verdict, by = null, witness } = entry.body;
    return { ...row, place, typed, value, unit, limit, verdict, by, witness: witness ? nameOf(room, witness) : null };
  });
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

/** Checks that no longer count because the work went back behind them. */
function askedAgain(entries: readonly RecordedEntry[]): ReadonlySet<number> {
  const bundles = new Map<TicketId, Bundle>();
  for (const entry of entries) {
    if (!('ticket' in entry.body)) continue;
    const after = evolve(bundles.get(entry.body.ticket), entry);
    if (after) bundles.set(entry.body.ticket, after);
  }
  const checks = [...bundles.values()].flatMap(allChecks);
  return new Set(checks.filter((check) => check.again).map((check) => check.seq));
}

/** What an entry other than a check says, in a few words. */
function saying(entry: RecordedEntry, room: Room, steps: readonly Step[]): string | null {
  const stepWords = (id: StepId): string => {
    const step = steps.find((each) => each.id === id);
    return step ? `step ${step.number}, ${step.title}` : id;
  };
  switch (entry.kind) {
    case 'enrolled':
      return `${entry.body.name} (${entry.body.hand}), ${entry.body.role}`;
    case 'retired':
      return `${nameOf(room, entry.body.hand)}${entry.body.reason ? `: ${entry.body.reason}` : ''}`;
    case 'pin-set':
    case 'pin-proven':
      return nameOf(room, entry.body.hand);
    case 'pin-failed':
      return `${nameOf(room, entry.body.hand)}, for “${entry.body.for}”`;
    case 'skilled':
      return `${nameOf(room, entry.body.hand)}: ${entry.body.skill}, ${entry.body.level} ${levelWords[entry.body.level]}`;
    case 'helped':
      return nameOf(room, entry.body.by);
    case 'signed-on':
      return entry.body.after === 'lock' ? 'after the station had locked itself' : null;
    case 'released':
      return `${entry.body.procedure} revision ${entry.body.revision}`;
    case 'withdrawn':
      return `${entry.body.procedure} revision ${entry.body.revision}: ${entry.body.reason}`;
    case 'gauge-checked':
      return `${entry.body.gauge} read ${entry.body.reading}, ${entry.body.fit}`;
    case 'ticketed':
      return `${entry.body.procedure}, ${entry.body.sets} ${entry.body.sets === 1 ? 'set' : 'sets'}${entry.body.rolls.length ? `, rolls ${entry.body.rolls.join(', ')}` : ''}`;
    case 'opened':
      return `revision ${entry.body.revision}`;
    case 'caution-read':
      return cautionWords(steps, entry.body.step, entry.body.caution);
    case 'struck':
      return `entry ${entry.body.entry}: ${entry.body.reason}`;
    case 'sent-back':
      return `back to ${stepWords(entry.body.step)}: ${entry.body.reason}`;
    case 'held':
      return `${entry.body.hold}: ${entry.body.reason}`;
    case 'settled':
      return `${entry.body.hold}, ${settlingWords(entry.body.how, stepWords)}: ${entry.body.reason}`;
    case 'handed-over':
      return `to ${nameOf(room, entry.body.to)}`;
    case 'paused':
      return entry.body.reason ?? null;
    case 'finished':
      return `${entry.body.good} of ${entry.body.sets} good, ${entry.body.conceded} by concession, ${entry.body.scrapped} scrapped`;
    case 'noted':
      return entry.body.text;
    default:
      return null;
  }
}

/** The signal word and what it warns of: the first sentence. */
function cautionWords(steps: readonly Step[], id: StepId, number: number): string {
  const caution = steps.find((each) => each.id === id)?.cautions[number - 1];
  return caution ? `${caution.word} ${/^.*?[.](?=\s|$)/.exec(caution.text)?.[0] ?? caution.text}` : `caution ${number}`;
}

function settlingWords(how: Settling, stepWords: (id: StepId) => string): string {
  switch (how.as) {
    case 'rework':
      return `rework from ${stepWords(how.step)}`;
    case 'recut':
      return `${how.piece} recut as ${how.newPiece}${how.roll ? ` from ${how.roll}` : ''}, back to ${stepWords(how.step)}`;
    case 'concession':
      return `concession ${how.name}, ${how.limit}, until ${how.expires}`;
    case 'scrap':
      return `set ${how.set} scrapped`;
    default:
      return assertNever(how);
  }
}

import { stringify } from 'csv-stringify/sync';
import { assertNever } from '../base/assert-never.ts';
import type { Digest, TicketId } from '../base/brand.ts';
import { wallTime } from '../base/instant.ts';
import { oneLine } from '../base/text.ts';
import type { EntryKind, RecordedEntry, Settling } from '../bundle/entries.ts';
import { nameOf, type Room } from '../bundle/room.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { table } from './table.ts';

/** One thing that was done, as an auditor reads it. Members that do not apply are null. */
export interface WhoRow {
  readonly ticket: string;
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
  /** The second person of a hold point. */
  readonly witness: string | null;
  /** Why it was crossed out, when it was. */
  readonly struck: string | null;
  readonly revision: string | null;
  readonly seq: number;
}

/** What `whoRows` needs to know beside the entries. */
export interface WhoSources {
  readonly room: Room;
  /** Procedure texts by digest, as far as they are kept. */
  readonly texts: ReadonlyMap<Digest, Procedure>;
}

/** The entries of bundles as rows, in their order. A struck check carries its reason; the striking is a row of its own. */
export function whoRows(entries: readonly RecordedEntry[], { room, texts }: WhoSources): readonly WhoRow[] {
  const struck = new Map(
    entries.flatMap((each) => (each.kind === 'struck' ? [[each.body.entry, each.body.reason] as const] : [])),
  );
  const digests = new Map<TicketId, Digest>();
  const revisions = revisionsOf(room);
  return entries.flatMap((entry) => {
    if (!('ticket' in entry.body)) return [];
    const { ticket } = entry.body;
    if (entry.kind === 'opened') digests.set(ticket, entry.body.digest);
    const digest = 'digest' in entry.body ? entry.body.digest : digests.get(ticket);
    const id = 'step' in entry.body ? entry.body.step : null;
    const step = digest && id ? texts.get(digest)?.steps.find((each) => each.id === id) : undefined;
    const pointId = 'point' in entry.body ? entry.body.point : null;
    const point = step?.points.find((each) => each.id === pointId)?.text ?? pointId;
    const row: WhoRow = {
      ticket,
      kind: entry.kind,
      set: 'set' in entry.body ? entry.body.set : null,
      step: step?.number ?? null,
      title: step?.title ?? id,
      point,
      place: null,
      hand: entry.hand,
      name: nameOf(room, entry.hand),
      at: entry.at,
      typed: null,
      value: saying(entry, room),
      unit: null,
      limit: null,
      verdict: null,
      witness: null,
      struck: struck.get(entry.seq) ?? null,
      revision: (digest && revisions.get(digest)) ?? null,
      seq: entry.seq,
    };
    if (entry.kind !== 'checked') return [row];
    const { place, typed, value, unit, limit, verdict, witness } = entry.body;
    return [{ ...row, place, typed, value, unit, limit, verdict, witness: witness ? nameOf(room, witness) : null }];
  });
}

/** What an entry other than a check says, in a few words. */
function saying(entry: RecordedEntry, room: Room): string | null {
  switch (entry.kind) {
    case 'ticketed':
      return `${entry.body.procedure}, ${entry.body.sets} sets${entry.body.rolls.length ? `, rolls ${entry.body.rolls.join(', ')}` : ''}`;
    case 'opened':
      return `revision ${entry.body.revision}`;
    case 'caution-read':
      return `caution ${entry.body.caution} read`;
    case 'struck':
      return `entry ${entry.body.entry}: ${entry.body.reason}`;
    case 'sent-back':
      return `back to ${entry.body.step}: ${entry.body.reason}`;
    case 'held':
      return `${entry.body.hold}: ${entry.body.reason}`;
    case 'settled':
      return `${entry.body.hold}, ${settlingWords(entry.body.how)}: ${entry.body.reason}`;
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

function settlingWords(how: Settling): string {
  switch (how.as) {
    case 'rework':
      return `rework from ${how.step}`;
    case 'recut':
      return `${how.piece} recut as ${how.newPiece}${how.roll ? ` from ${how.roll}` : ''}`;
    case 'concession':
      return `concession ${how.name}, ${how.limit}, until ${how.expires}`;
    case 'scrap':
      return `set ${how.set} scrapped`;
    default:
      return assertNever(how);
  }
}

/** For people: one line a row, as wide as the terminal. */
export function whoTable(rows: readonly WhoRow[], width: number): string {
  const tickets = new Set(rows.map(({ ticket }) => ticket));
  const shape = [
    ...(tickets.size > 1 ? [{ name: 'ticket', align: 'left' } as const] : []),
    { name: 'set', align: 'right' } as const,
    { name: 'step', align: 'right' } as const,
    ...['point', 'value', 'limit', 'verdict', 'hand', 'at'].map((name) => ({ name, align: 'left' }) as const),
    { name: 'seq', align: 'right' } as const,
  ];
  const cells = rows.map((row) => [
    ...(tickets.size > 1 ? [row.ticket] : []),
    row.set === null ? '' : String(row.set),
    row.step === null ? '' : String(row.step),
    row.kind === 'checked'
      ? `${row.point ?? ''}${row.place !== null && row.place > 1 ? `, place ${row.place}` : ''}`
      : `· ${row.kind}`,
    [row.value, row.unit].filter((each) => each !== null).join(' '),
    row.limit ?? '',
    row.struck === null ? (row.verdict ?? '') : `struck: ${row.struck}`,
    row.witness === null ? row.name : `${row.name}, ${row.witness} looked`,
    `${row.at.slice(0, 10)} ${wallTime(row.at)}`,
    String(row.seq),
  ]);
  return table(
    shape,
    cells.map((line) => line.map(oneLine)),
    width,
  ).join('\n');
}

/** RFC 4180, with a line of names; what a spreadsheet would run as a formula is defused. */
export const whoCsv = (rows: readonly WhoRow[]): string =>
  stringify([...rows], { header: true, columns: [...columnsOf], record_delimiter: '\r\n', escape_formulas: true });

const columnsOf: readonly (keyof WhoRow)[] = [
  'ticket',
  'kind',
  'set',
  'step',
  'title',
  'point',
  'place',
  'hand',
  'name',
  'at',
  'typed',
  'value',
  'unit',
  'limit',
  'verdict',
  'witness',
  'struck',
  'revision',
  'seq',
];

const revisionsOf = (room: Room): ReadonlyMap<Digest, string> =>
  new Map([...room.releases.values()].flat().map(({ digest, revision }) => [digest, revision]));

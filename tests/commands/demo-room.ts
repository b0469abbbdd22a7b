import { PassThrough } from 'node:stream';
import { type Playing, type RoomLedger, roomLedger } from '../../src/app/room-ledger.ts';
import type { TicketId } from '../../src/base/brand.ts';
import { type Instant, parseStamp } from '../../src/base/instant.ts';
import { allChecks, type Bundle } from '../../src/bundle/bundle.ts';
import { type RecordedEntry, readEntry } from '../../src/bundle/entries.ts';
import { demo } from '../../src/commands/demo.ts';
import type { Io } from '../../src/commands/io.ts';
import type { LedgerStore } from '../../src/ledger/ledger-store.ts';
import type { Procedure } from '../../src/procedure/procedure.ts';
import { pastOf } from '../../src/reports/past.ts';
import { type WhoRow, whoRows } from '../../src/reports/who.ts';
import { openRoomFolder } from '../../src/storage/room-folder.ts';

interface Called {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** What `walkfoot demo` answers and prints. */
export const callDemo = (
  cwd: string,
  named: string | undefined,
  { open, at = MIDWEEK }: { readonly open?: true; readonly at?: Instant } = {},
): Promise<Called> => called((io) => demo(named, open ? { open } : {}, io), cwd, at);

/** What a command answers and prints when it is called in this folder at this moment; its input is a pipe that has ended, mostly at once. */
export async function called(
  call: (io: Io) => Promise<number>,
  cwd: string,
  at = MIDWEEK,
  input = '',
): Promise<Called> {
  const out: string[] = [];
  const err: string[] = [];
  const io: Io = {
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
    cwd,
    env: {},
    clock: () => at,
    offsetAt: () => at.offset,
    stdin: new PassThrough().end(input) as unknown as NodeJS.ReadStream,
    stdout: new PassThrough() as unknown as NodeJS.WriteStream,
    exit: (code) => {
      throw new Error(`the program ended with ${code}`);
    },
  };
  const code = await call(io);
  return { code, out: out.join(''), err: err.join('') };
}

/** A Wednesday morning. */
const MIDWEEK = instant('2026-11-25T09:00:00+01:00');

export function instant(stamp: string): Instant {
  const found = parseStamp(stamp);
  if (!found) throw new Error(`${stamp} is no stamp`);
  return found;
}

/** A room as somebody reads it afterwards. */
export interface ReadRoom {
  readonly store: LedgerStore;
  readonly ledger: RoomLedger;
  readonly entries: readonly RecordedEntry[];
  playing(ticket: string): Promise<Playing>;
  bundle(ticket: string): Promise<Bundle>;
  text(ticket: string): Promise<Procedure>;
  rows(ticket: string): Promise<readonly WhoRow[]>;
  close(): Promise<void>;
}

export async function readRoom(folder: string, now = MIDWEEK): Promise<ReadRoom> {
  const room = await openRoomFolder(folder);
  const store = room.ledger();
  const ledger = await roomLedger(store, () => now);
  const entries = (await store.read({})).map(({ entry }) => {
    const read = readEntry(entry);
    if (!read.ok) throw new Error(read.error.message);
    return read.value;
  });
  const playing = async (ticket: string) => {
    const found = await ledger.playing(ticket as TicketId);
    if (!found.ok) throw new Error(found.error.message);
    return found.value;
  };
  return {
    store,
    ledger,
    entries,
    playing,
    bundle: async (ticket) => (await playing(ticket)).bundle,
    text: async (ticket) => (await playing(ticket)).procedure,
    async rows(ticket) {
      const { bundle, procedure } = await playing(ticket);
      const texts = new Map(bundle.text ? [[bundle.text.understood, procedure]] : []);
      const own = entries.filter(({ body }) => 'ticket' in body && body.ticket === ticket);
      return whoRows(pastOf(own, { room: ledger.room(), texts }));
    },
    close: () => room.close(),
  };
}

/** Values of a step's readings in the order they were taken, all sets together, those of the point whose words begin so. */
export async function valuesOf(room: ReadRoom, ticket: string, beginning: string): Promise<readonly string[]> {
  const { steps } = await room.text(ticket);
  const points = new Set(
    steps.flatMap((step) => step.points.filter(({ text }) => text.startsWith(beginning)).map(({ id }) => id)),
  );
  return allChecks(await room.bundle(ticket))
    .filter(({ point }) => points.has(point))
    .map(({ value }) => value);
}

import { resolve } from 'node:path';
import { type RoomLedger, roomLedger } from '../app/room-ledger.ts';
import type { HandId, ProcedureId, TicketId } from '../base/brand.ts';
import type { Command } from '../bundle/command.ts';
import { THE_ROOM } from '../bundle/entries.ts';
import { memoryLedger } from '../ledger/memory-ledger.ts';
import { readProcedure } from '../procedure/read-procedure.ts';
import { findingsReport } from '../reports/findings.ts';
import { findProcedure, type ProcedureFile, textOf } from '../storage/procedure-files.ts';
import type { RoomOption } from './in-room.ts';
import { cannot, type Io } from './io.ts';
import { runSession, type SessionOptions } from './session.ts';

/** Plays a draft as the sewer will see it, on a ledger that lives only as long as the rehearsal: nothing is recorded. */
export async function rehearse(
  named: string,
  options: RoomOption & Pick<SessionOptions, 'plain'>,
  io: Io,
): Promise<number> {
  const draft = findProcedure(resolve(io.cwd, options.room ?? '.'), named);
  if (!draft.ok) return cannot(io, draft.error.message);
  const text = textOf(draft.value.bytes);
  if (text === undefined) return cannot(io, `${draft.value.name} is no UTF-8 text: save it as UTF-8.`);
  const { procedure, findings } = readProcedure(text, draft.value.name);
  if (findings.some(({ severity }) => severity === 'error')) {
    io.err(findingsReport(findings, new Map([[draft.value.name, text]])));
    io.err('A draft with errors can’t be rehearsed: mend them first.\n');
    return 1;
  }
  const ledger = await stage(draft.value, procedure.id, procedure.title, procedure.sets, io);
  const as = {
    purpose: 'rehearse',
    home: 'out',
    roomName: 'Rehearsal',
    station: 'rehearsal',
    letters: 'normal',
    bound: TICKET,
  } as const;
  return runSession(ledger, as, { ...options, hand: SEWER, bell: 'rings' }, io);
}

const TICKET = 'REHEARSAL' as TicketId;
const SEWER = 'you' as HandId;
const SUPERVISOR = 'supervisor' as HandId;

/** A room of one draft, one ticket and two invented hands: you, and the supervisor who releases hold points and settles holds. */
async function stage(
  draft: ProcedureFile,
  procedure: ProcedureId,
  title: string,
  sets: number,
  io: Io,
): Promise<RoomLedger> {
  const store = memoryLedger('rehearsal');
  await store.keep([{ digest: draft.digest, name: draft.name, bytes: draft.bytes }]);
  const ledger = await roomLedger(store, io.clock);
  const { digest } = draft;
  const setting: readonly Command[] = [
    { do: 'enrol', hand: THE_ROOM, who: SEWER, name: 'you', role: 'sewer' },
    { do: 'enrol', hand: THE_ROOM, who: SUPERVISOR, name: 'supervisor', role: 'supervisor' },
    { do: 'release', hand: SUPERVISOR, procedure, title, digest, pictures: [] },
    { do: 'make ticket', hand: THE_ROOM, ticket: TICKET, procedure, sets, rolls: [] },
  ];
  for (const command of setting) {
    const done = await ledger.attempt(null, command);
    if (!done.ok) throw new Error(`the rehearsal could not be set: ${done.error.message}`);
  }
  return ledger;
}

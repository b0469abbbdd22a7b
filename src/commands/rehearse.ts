import { chalkStderr } from 'chalk';
import { type RoomLedger, roomLedger } from '../app/room-ledger.ts';
import { understoodText } from '../app/understood.ts';
import type { HandId, TicketId } from '../base/brand.ts';
import type { Command } from '../bundle/command.ts';
import { THE_ROOM } from '../bundle/entries.ts';
import { memoryLedger } from '../ledger/memory-ledger.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { readProcedure } from '../procedure/read-procedure.ts';
import { findingsReport } from '../reports/findings.ts';
import { findProcedure, type ProcedureFile } from '../storage/procedure-files.ts';
import { folderOf, type RoomOption } from './in-room.ts';
import { cannot, type Io } from './io.ts';
import { runSession, type SessionOptions } from './session.ts';

/** Plays a draft as the sewer will see it, on a ledger that lives only as long as the rehearsal: nothing is recorded. */
export async function rehearse(
  named: string,
  options: RoomOption & Pick<SessionOptions, 'plain'>,
  io: Io,
): Promise<number> {
  const draft = findProcedure(folderOf(options, io), named);
  if (!draft.ok) return cannot(io, draft.error.message);
  const { text } = draft.value;
  const { procedure, findings } = readProcedure(text, draft.value.name);
  if (findings.some(({ severity }) => severity === 'error')) {
    io.err(findingsReport(findings, new Map([[draft.value.name, text]]), chalkStderr));
    io.err('A draft with errors can’t be rehearsed: mend them first.\n');
    return 1;
  }
  const ledger = await stage(draft.value, procedure, io);
  const as = {
    purpose: 'rehearse',
    home: 'out',
    roomName: 'Rehearsal',
    station: 'rehearsal',
    letters: 'normal',
    bound: TICKET,
    lockAfter: null,
  } as const;
  return runSession(ledger, as, { ...options, hand: SEWER, bell: 'rings' }, io);
}

const TICKET = 'REHEARSAL' as TicketId;
const SEWER = 'you' as HandId;
const SUPERVISOR = 'supervisor' as HandId;

/** A room of one draft, one ticket and two invented hands: you, and the supervisor who releases hold points and settles holds. */
async function stage({ digest, name, bytes }: ProcedureFile, procedure: Procedure, io: Io): Promise<RoomLedger> {
  const store = memoryLedger('rehearsal');
  const understood = understoodText(procedure, name);
  await store.keep([{ digest, name, bytes }, understood]);
  const ledger = await roomLedger(store, io.clock, { pin: 'nobody' });
  const { id, title, sets } = procedure;
  // Nobody else is there to stand by, and the draft is to be seen as an expert may see it, too: so you can teach all of it.
  const skills = ['rehearsing', ...procedure.steps.flatMap(({ facts }) => facts.needsSkill ?? [])];
  const setting: readonly Command[] = [
    { do: 'enrol', hand: THE_ROOM, who: SEWER, name: 'you', role: 'sewer' },
    { do: 'enrol', hand: THE_ROOM, who: SUPERVISOR, name: 'supervisor', role: 'supervisor' },
    ...skills.map((skill) => ({ do: 'set skill', hand: SUPERVISOR, who: SEWER, skill, level: 4 }) as const),
    {
      do: 'release',
      hand: SUPERVISOR,
      procedure: id,
      title,
      author: SEWER,
      supervisors: 'several',
      digest,
      understood: understood.digest,
      pictures: [],
    },
    { do: 'make ticket', hand: THE_ROOM, ticket: TICKET, procedure: id, sets, rolls: [] },
  ];
  for (const command of setting) {
    const done = await ledger.attempt(null, command);
    if (!done.ok) throw new Error(`the rehearsal could not be set: ${done.error.message}`);
  }
  return ledger;
}

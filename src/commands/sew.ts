import type { TicketId } from '../base/brand.ts';
import type { RoomFolder } from '../storage/room-folder.ts';
import { lockMinutes } from '../storage/settings.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type Io } from './io.ts';
import { runSession, type SessionOptions } from './session.ts';

/** Plays one bundle from where it stands, then ends. 0: finished or left; 1: left on hold; 2: could not run. */
export function sew(typed: string, options: RoomOption & SessionOptions, io: Io): Promise<number> {
  return onLedger(options, io, async ({ room, ledger }) => {
    const found = await ledger.playing(ledger.ticketNamed(typed) ?? (typed as TicketId));
    if (!found.ok) return cannot(io, found.error.message);
    const { ticket, work } = found.value.bundle;
    if (work === 'finished')
      return cannot(io, `${ticket} is finished and stays as it is: ask \`walkfoot who ${ticket}\` what was done.`);
    const { as, bell } = settingsOf(room);
    return runSession(ledger, { ...as, home: 'out', bound: ticket }, { ...options, bell }, io);
  });
}

/** The station: who is on, which tickets wait, one bundle after another until somebody leaves. */
export function openStation(options: RoomOption & SessionOptions, io: Io): Promise<number> {
  return onLedger(options, io, ({ room, ledger }) => {
    const { as, bell } = settingsOf(room);
    return runSession(ledger, { ...as, home: 'station', bound: null }, { ...options, bell }, io);
  });
}

function settingsOf({ name: roomName, station, settings }: RoomFolder) {
  const letters = settings.big ? 'big' : 'normal';
  const bell = settings.bell ? 'rings' : 'is silent';
  const lockAfter = lockMinutes(settings);
  return { as: { purpose: 'record', roomName, station, letters, lockAfter }, bell } as const;
}

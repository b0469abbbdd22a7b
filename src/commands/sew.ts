import type { TicketId } from '../base/brand.ts';
import { asRoomSays } from './as-room-says.ts';
import { keptPictures } from './find-picture.ts';
import { onLedger, type PlayableRoom, type RoomOption } from './in-room.ts';
import { cannot, type Io } from './io.ts';
import { runSession, type SessionOptions } from './session.ts';
import { stationThread } from './station-thread.ts';

/** Plays one bundle from where it stands, then ends. 0: finished or left; 1: left on hold; 2: could not run. */
export function sew(typed: string, options: RoomOption & SessionOptions, io: Io): Promise<number> {
  return onLedger(options, io, async (open) => {
    const { room, ledger } = open;
    const found = await ledger.playing(ledger.ticketNamed(typed) ?? (typed as TicketId));
    if (!found.ok) return cannot(io, found.error.message);
    const { ticket, work } = found.value.bundle;
    if (work === 'finished')
      return cannot(io, `${ticket} is finished and stays as it is: ask \`walkfoot who ${ticket}\` what was done.`);
    const as = { purpose: 'record', home: 'out', bound: ticket, ...(await asRoomSays(room)) } as const;
    return runSession(ledger, as, { ...options, ...meansOf(open) }, io);
  });
}

/** The station: who is on, which tickets wait, one bundle after another until somebody leaves. */
export function openStation(options: RoomOption & SessionOptions, io: Io): Promise<number> {
  return onLedger(options, io, async (open) => {
    const { room, ledger } = open;
    const as = { purpose: 'record', home: 'station', bound: null, ...(await asRoomSays(room)) } as const;
    return runSession(ledger, as, { ...options, ...meansOf(open) }, io);
  });
}

function meansOf({ room: { settings }, store }: PlayableRoom) {
  const pictures = keptPictures(store);
  const bell = settings.bell ? ('rings' as const) : ('is silent' as const);
  return { bell, pictures, thread: stationThread(settings, pictures) };
}

import { resolve } from 'node:path';
import { type RoomLedger, roomLedger } from '../app/room-ledger.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import { openRoomFolder, type RoomFolder } from '../storage/room-folder.ts';
import type { Io } from './io.ts';

export interface RoomOption {
  readonly room?: string;
}

/** An open room: its folder, and its ledger as entries. */
export interface OpenRoom {
  readonly room: RoomFolder;
  readonly store: LedgerStore;
}

/** The same, with the ledger folded into the room's state. */
export interface PlayableRoom extends OpenRoom {
  readonly ledger: RoomLedger;
}

/** The room's folder: as said, or where the command was called. */
export const folderOf = (options: RoomOption, io: Io): string => resolve(io.cwd, options.room ?? '.');

/** Opens the room (`--room`, or the folder the command was called in), does the work, and closes it whatever happens. */
export async function inRoom<T>(options: RoomOption, io: Io, work: (open: OpenRoom) => Promise<T>): Promise<T> {
  const room = await openRoomFolder(folderOf(options, io));
  try {
    return await work({ room, store: room.ledger() });
  } finally {
    await room.close();
  }
}

/** The same for commands that look at the room's state or change it. */
export function onLedger<T>(options: RoomOption, io: Io, work: (open: PlayableRoom) => Promise<T>): Promise<T> {
  return inRoom(options, io, async (open) =>
    work({
      ...open,
      ledger: await roomLedger(open.store, io.clock, { keys: open.room.key(), pin: open.room.settings.pin }),
    }),
  );
}

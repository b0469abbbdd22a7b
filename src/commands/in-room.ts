import { resolve } from 'node:path';
import { type RoomLedger, roomLedger } from '../app/room-ledger.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import { openRoom, type Room } from '../storage/room.ts';
import type { Io } from './io.ts';

export interface RoomOption {
  readonly room?: string;
}

/** An open room with its ledger, as files and as state. */
export interface OpenRoom {
  readonly room: Room;
  readonly store: LedgerStore;
  readonly ledger: RoomLedger;
}

/** Opens the room (`--room`, or the folder the command was called in), does the work, and closes it whatever happens. */
export async function inRoom<T>(options: RoomOption, io: Io, work: (open: OpenRoom) => Promise<T>): Promise<T> {
  const room = await openRoom(resolve(io.cwd, options.room ?? '.'));
  try {
    const store = room.ledger();
    return await work({ room, store, ledger: await roomLedger(store, io.clock) });
  } finally {
    await room.close();
  }
}

import { randomBytes } from 'node:crypto';
import type { App } from '../app/app.ts';
import { performer, type ThreadOf } from '../app/perform.ts';
import type { RoomLedger } from '../app/room-ledger.ts';
import { type AppStore, startStore } from '../app/store.ts';
import type { Io } from './io.ts';

export interface StoreMeans {
  readonly ledger: RoomLedger;
  /** Without it the program does not reckon with bobbins. */
  readonly thread?: ThreadOf;
  /** What it does at a reading out of its limit. */
  readonly ring?: () => void;
}

/** The program at work on a ledger from here on. */
export function roomStore(
  { ledger, thread = async () => undefined, ring = () => {} }: StoreMeans,
  first: App,
  io: Io,
): AppStore {
  const store: AppStore = startStore(
    first,
    io.clock,
    performer(ledger, ring, () => store.app(), randomBytes, thread),
  );
  return store;
}

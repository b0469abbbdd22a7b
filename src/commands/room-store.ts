import { randomBytes } from 'node:crypto';
import type { App } from '../app/app.ts';
import { performer } from '../app/perform.ts';
import type { RoomLedger } from '../app/room-ledger.ts';
import { type AppStore, startStore } from '../app/store.ts';
import type { Io } from './io.ts';

/** The program at work on a ledger from here on; `ring` is what it does at a reading out of its limit. */
export function roomStore(ledger: RoomLedger, first: App, io: Io, ring: () => void = () => {}): AppStore {
  const store: AppStore = startStore(
    first,
    io.clock,
    performer(ledger, ring, () => store.app(), randomBytes),
  );
  return store;
}

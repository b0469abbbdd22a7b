import { readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { roomLedger } from '../../app/room-ledger.ts';
import type { Clock } from '../../base/instant.ts';
import { makeFolder, syncFolder } from '../../storage/durable.ts';
import { createRoom } from '../../storage/room.ts';
import { ROOM_FILE } from '../../storage/settings.ts';
import { inPlainWords } from '../../storage/trouble.ts';
import { copyProcedures } from './copy-procedures.ts';
import { programFiles } from './program-files.ts';
import { readme } from './readme.ts';
import { releaser } from './releases.ts';
import { tellStories } from './stories.ts';
import { storyClock } from './story-clock.ts';

export const PRACTICE_ROOM = 'Northslip Practice Workroom (invented)';

/** Where in its folder a practice room lies until it is whole. */
export const MAKING = '.making';

/** How many of each a practice room holds. */
export interface PracticeRoom {
  readonly hands: number;
  readonly procedures: number;
  readonly bundles: number;
  readonly entries: number;
}

/**
 * Makes the practice room in a folder that is empty or not there yet: invented hands, the program's procedures in their
 * revisions, and bundles whose past ends before the clock's today. It is made aside, so that an interruption leaves no half
 * room. Rejects with `StoreTrouble`.
 */
export async function makePracticeRoom(folder: string, clock: Clock): Promise<PracticeRoom> {
  const aside = join(folder, MAKING);
  const clear = (): void => inPlainWords(folder, () => rmSync(aside, { recursive: true, force: true }));
  inPlainWords(folder, () => makeFolder(folder));
  clear();
  try {
    const made = await fill(aside, clock);
    inPlainWords(folder, () => moveIn(aside, folder));
    return made;
  } finally {
    clear();
  }
}

async function fill(folder: string, clock: Clock): Promise<PracticeRoom> {
  const source = programFiles();
  const room = await createRoom(folder, { name: PRACTICE_ROOM, station: 'SEW-1' });
  try {
    inPlainWords(folder, () => {
      copyProcedures(source, folder);
      writeFileSync(join(folder, 'README.md'), readme(PRACTICE_ROOM), { flush: true });
    });
    const time = storyClock(clock());
    const store = room.ledger();
    const ledger = await roomLedger(store, time.clock);
    await tellStories({ ledger, time }, releaser({ folder: room.folder, store, ledger }));
    const { hands, releases } = ledger.room();
    return {
      hands: hands.size,
      procedures: releases.size,
      bundles: ledger.bundles().length,
      entries: (await store.head()) + 1,
    };
  } finally {
    await room.close();
  }
}

/** The settings come last: a folder counts as a room only when all of it is there. */
function moveIn(from: string, to: string): void {
  const names = readdirSync(from).filter((name) => name !== ROOM_FILE);
  for (const name of [...names, ROOM_FILE]) renameSync(join(from, name), join(to, name));
  syncFolder(to);
}

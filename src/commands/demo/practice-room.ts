import { readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { roomLedger } from '../../app/room-ledger.ts';
import type { Clock } from '../../base/instant.ts';
import type { Command } from '../../bundle/command.ts';
import type { Release } from '../../bundle/room.ts';
import type { LedgerStore } from '../../ledger/ledger-store.ts';
import { memoryLedger } from '../../ledger/memory-ledger.ts';
import { makeFolder, syncFolder } from '../../storage/durable.ts';
import { createRoomFolder } from '../../storage/room-folder.ts';
import { ROOM_FILE } from '../../storage/settings.ts';
import { inPlainWords } from '../../storage/trouble.ts';
import { copyProcedures } from './copy-procedures.ts';
import { programFiles } from './program-files.ts';
import { readme } from './readme.ts';
import { releaser } from './releases.ts';
import { proofFor } from './stage.ts';
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
  const room = await createRoomFolder(folder, {
    name: PRACTICE_ROOM,
    station: 'SEW-1',
    settings: { bobbin: '30 m' },
  });
  try {
    inPlainWords(folder, () => {
      copyProcedures(source, folder);
      writeFileSync(join(folder, 'README.md'), readme(PRACTICE_ROOM), { flush: true });
    });
    const time = storyClock(clock());
    const store = memoryLedger(room.station);
    const ledger = await roomLedger(store, time.clock, { keys: room.key() });
    const attempt = (command: Command) => ledger.attempt(null, command, proofFor(ledger, null, command));
    await tellStories(
      { ledger, time },
      releaser({ folder: room.folder, store, ledger, supervisors: room.settings.supervisors, attempt }),
    );
    const { hands, releases } = ledger.room();
    const entries = await writeDown(store, [...releases.values()].flat(), room.ledger());
    const key = room.key().find();
    if (key) await room.ledger().seal(key);
    return { hands: hands.size, procedures: releases.size, bundles: ledger.bundles().length, entries };
  } finally {
    await room.close();
  }
}

/**
 * Writes what was told in memory to the room's ledger: texts first, then all entries in one durable go, where one commit for
 * each would take seconds. Answers how many there are.
 */
async function writeDown(told: LedgerStore, releases: readonly Release[], store: LedgerStore): Promise<number> {
  const digests = new Set(
    releases.flatMap(({ digest, understood, pictures, sheets }) => [
      digest,
      understood,
      ...sheets.flatMap((sheet) => [sheet.digest, sheet.understood]),
      ...pictures.map((each) => each.digest),
    ]),
  );
  const texts = await Promise.all([...digests].map((digest) => told.kept(digest)));
  await store.keep(texts.filter((text) => text !== undefined));
  const drafts = (await told.read({})).map(({ entry: { at, hand, kind, body } }) => ({ at, hand, kind, body }));
  const written = await store.append(-1, drafts);
  if (written.outcome === 'moved') throw new Error('somebody else wrote to a ledger that was just made');
  return written.entries.length;
}

/** The settings come last: a folder counts as a room only when all of it is there. */
function moveIn(from: string, to: string): void {
  const names = readdirSync(from).filter((name) => name !== ROOM_FILE);
  for (const name of [...names, ROOM_FILE]) renameSync(join(from, name), join(to, name));
  syncFolder(to);
}

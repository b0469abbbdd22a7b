import { existsSync, lstatSync, readFileSync, realpathSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import type { KeyPlace } from '../ledger/key-place.ts';
import type { LedgerBytes } from '../ledger/ledger-bytes.ts';
import { type LedgerStore, StoreTrouble } from '../ledger/ledger-store.ts';
import { makeFolder, replaceFile, syncFolder } from './durable.ts';
import { openLedgerBytes } from './ledger-file.ts';
import { type NewRoomFile, ROOM_FILE, type RoomSettings, readRoomFile, writeRoomFile } from './settings.ts';
import { openLedger } from './sqlite-ledger.ts';
import { keyIn } from './station-key.ts';
import { inPlainWords } from './trouble.ts';

/** A settings file longer than this was not written by hand. Bytes. */
const ROOM_FILE_LIMIT = 65_536;

/** A room: a folder with `walkfoot.yaml`, `procedures/`, `media/` and, out of sight, its ledger in `.walkfoot/`. */
export interface RoomFolder {
  /** Absolute, with all links followed. */
  readonly folder: string;
  readonly name: string;
  readonly station: string;
  readonly settings: RoomSettings;
  /** The room's ledger, opened at the first call and made when there is none; throws `StoreTrouble`. The room closes it. */
  ledger(): LedgerStore;
  /** Where this station's key is kept. */
  key(): KeyPlace;
  /** The ledger's file as it lies there, to be checked; whoever asks closes it. Throws `StoreTrouble`. */
  bytes(): LedgerBytes & { close(): void };
  close(): Promise<void>;
}

/** The nearest room whose folder holds this path, be it one that can be used or not; undefined when none does. */
export function roomAround(path: string): string | undefined {
  const folder = dirname(path);
  if (existsSync(join(folder, ROOM_FILE))) return folder;
  return folder === path ? undefined : roomAround(folder);
}

/** Opens the room in exactly this folder. Rejects with `StoreTrouble` when there is none or its settings cannot be used. */
export async function openRoomFolder(folder: string): Promise<RoomFolder> {
  const place = resolve(folder);
  const file = join(place, ROOM_FILE);
  if (inPlainWords(place, () => statSync(file, { throwIfNoEntry: false })) === undefined) throw noRoom(place);
  const read = readRoomFile(inPlainWords(file, () => shortText(file)));
  if (!read.ok) throw new StoreTrouble(read.error.message);
  return roomIn(
    inPlainWords(place, () => realpathSync(place)),
    read.value,
  );
}

/**
 * Makes a room in the folder, and the folder when it is missing; rejects with `StoreTrouble` when there is a room already.
 * The settings are written last, so that a folder counts as a room only when all of it is there.
 */
export async function createRoomFolder(folder: string, room: NewRoomFile): Promise<RoomFolder> {
  const place = resolve(folder);
  const text = writeRoomFile(room);
  if (!text.ok) throw new StoreTrouble(text.error.message);
  inPlainWords(place, () => {
    const file = join(place, ROOM_FILE);
    makeFolder(place);
    if (lstatSync(file, { throwIfNoEntry: false })) {
      throw new StoreTrouble(`There is a room in ${place} already: name another folder, or use that room as it is.`);
    }
    for (const part of ['procedures', 'media']) makeFolder(join(place, part));
    makeHidden(place);
    replaceFile(file, text.value);
  });
  return openRoomFolder(place);
}

function roomIn(folder: string, file: Pick<RoomFolder, 'name' | 'station' | 'settings'>): RoomFolder {
  let ledger: LedgerStore | undefined;
  return {
    folder,
    ...file,
    ledger: () => {
      ledger ??= inPlainWords(folder, () =>
        openLedger(join(makeHidden(folder), 'ledger.db'), { station: file.station }),
      );
      return ledger;
    },
    key: () => inPlainWords(folder, () => keyIn(join(makeHidden(folder), 'station.key'), file.station)),
    bytes: () => {
      const ledger = join(folder, '.walkfoot', 'ledger.db');
      if (!existsSync(ledger))
        throw new StoreTrouble(`There is no ledger ${ledger}: nothing was ever recorded here, or it was taken away.`);
      return openLedgerBytes(ledger);
    },
    close: async () => ledger?.close(),
  };
}

/** The ledger's folder: for the room's user alone, and told to git as nothing to look at. A room cloned by git comes without. */
function makeHidden(room: string): string {
  const hidden = join(room, '.walkfoot');
  return inPlainWords(hidden, () => {
    makeFolder(hidden, 0o700);
    const ignore = join(hidden, '.gitignore');
    if (lstatSync(ignore, { throwIfNoEntry: false }) === undefined) {
      writeFileSync(ignore, '*\n', { flush: true });
      syncFolder(hidden);
    }
    return hidden;
  });
}

function noRoom(place: string): StoreTrouble {
  const found = statSync(place, { throwIfNoEntry: false });
  if (found && !found.isDirectory()) {
    return new StoreTrouble(`${place} is a file and no folder: name the folder of the room with --room.`);
  }
  if (!found) {
    return new StoreTrouble(
      `There is no folder ${place}: check the name, or run \`walkfoot demo ${place}\` to make a practice room there.`,
    );
  }
  return new StoreTrouble(
    `There is no room in ${place}: run \`walkfoot demo ${place}\` to make a practice room there, or name your room with --room.`,
  );
}

function shortText(file: string): string {
  const found = statSync(file);
  // A pipe or a device would be read for ever.
  if (!found.isFile() && !found.isDirectory()) throw new StoreTrouble(`${file} is no file: put back a copy.`);
  if (found.size > ROOM_FILE_LIMIT) throw new StoreTrouble(`${file} is far too long for settings: put back a copy.`);
  return readFileSync(file, 'utf8');
}

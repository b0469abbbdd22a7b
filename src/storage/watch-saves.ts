import { type FSWatcher, statSync, watch } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { StoreTrouble } from '../ledger/ledger-store.ts';
import { inPlainWords } from './trouble.ts';

/** What whoever watches is told. */
export interface Watched {
  /** Something was saved, added or taken away; read it again. Called once for the handful of events that one save makes. */
  readonly saved: () => void;
  /** A folder is gone, or the system stopped watching it. When it is back it is watched again, and that is told as a save. */
  readonly lost: (trouble: StoreTrouble) => void;
}

/**
 * Tells of each save of these files, or of any text or picture in these folders, until the function it answers is called. Paths are
 * absolute. An editor saves by putting a new file in the place of the old one, so it is the folder that is watched, never
 * the file itself, which need not be there yet; and where another folder is put in its place, that one. Throws `StoreTrouble` when a
 * folder cannot be watched to begin with.
 */
export function watchSaves(paths: readonly string[], told: Watched): () => void {
  const stops: (() => void)[] = [];
  let timer: NodeJS.Timeout | undefined;
  let waitingSince = 0;
  const stop = (): void => {
    clearTimeout(timer);
    for (const stopOne of stops.splice(0)) stopOne();
  };
  const tell = (): void => {
    timer = undefined;
    told.saved();
  };
  const soon = (): void => {
    const now = performance.now();
    if (timer === undefined) waitingSince = now;
    clearTimeout(timer);
    timer = setTimeout(tell, Math.max(0, Math.min(QUIET_MS, waitingSince + LONGEST_MS - now)));
  };
  try {
    for (const [folder, names] of byFolder(paths))
      stops.push(watchFolder(folder, names, { saved: soon, lost: told.lost }));
  } catch (trouble) {
    stop();
    throw trouble;
  }
  return stop;
}

/** Watches whatever folder is in this place, until the function it answers is called. */
function watchFolder(folder: string, names: Names, { saved, lost }: Watched): () => void {
  let watched: { readonly watcher: FSWatcher; readonly ino: number } | undefined;
  let timer: NodeJS.Timeout | undefined;
  const begin = (): void => {
    const { ino } = statSync(folder);
    const watcher = watch(folder);
    watched = { watcher, ino };
    watcher.on('error', again);
    watcher.on('change', (_, name) => {
      if (statSync(folder, { throwIfNoEntry: false })?.ino !== ino) again();
      // Some systems do not say which file it was.
      else if (name === null || isMeant(String(name), names)) saved();
    });
  };
  const rest = (): void => {
    clearTimeout(timer);
    watched?.watcher.close();
    watched = undefined;
  };
  /** Looks for the folder until it is there. */
  const again = (): void => {
    const before = watched;
    rest();
    try {
      begin();
      saved();
    } catch {
      if (before) lost(new StoreTrouble(`${folder} can no longer be watched: put it back.`));
      timer = setTimeout(again, RETRY_MS);
    }
  };
  inPlainWords(folder, begin);
  return rest;
}

/** So often a folder that is gone is looked for. */
const RETRY_MS = 250;

/** So long nothing more may happen before a save counts as done: an editor empties a file, fills it and renames it. */
const QUIET_MS = 15;
/** After so long it is told of all the same, however often the file is written to. */
const LONGEST_MS = 60;

/** The names that are meant in a folder, or all its texts and pictures. */
type Names = ReadonlySet<string> | 'any';

function byFolder(paths: readonly string[]): ReadonlyMap<string, Names> {
  const folders = new Map<string, Names>();
  for (const path of paths.map((each) => resolve(each))) {
    if (inPlainWords(path, () => statSync(path, { throwIfNoEntry: false }))?.isDirectory()) {
      folders.set(path, 'any');
      continue;
    }
    const known = folders.get(dirname(path));
    if (known === 'any') continue;
    folders.set(dirname(path), new Set([...(known ?? []), basename(path)]));
  }
  return folders;
}

const isMeant = (name: string, names: Names): boolean =>
  names === 'any' ? SHOWN.test(name) && !name.startsWith('.') : names.has(name);

/** Texts, and the pictures that they show. */
const SHOWN = /\.(?:md|svg|png|jpe?g)$/i;

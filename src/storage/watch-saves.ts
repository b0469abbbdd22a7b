import { existsSync, type FSWatcher, statSync, watch } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { StoreTrouble } from '../ledger/ledger-store.ts';
import { inPlainWords } from './trouble.ts';

/** What whoever watches is told. */
export interface Watched {
  /** Something was saved, added or taken away; read it again. Called once for the handful of events that one save makes. */
  readonly saved: () => void;
  /** The folder is gone or the system stopped watching it: nothing will be told any more. */
  readonly lost: (trouble: StoreTrouble) => void;
}

/**
 * Tells of each save of these files, or of any text or picture in these folders, until the function it answers is called. Paths are
 * absolute. An editor saves by putting a new file in the place of the old one, so it is the folder that is watched, never
 * the file itself, which need not be there yet. Throws `StoreTrouble` when a folder cannot be watched.
 */
export function watchSaves(paths: readonly string[], told: Watched): () => void {
  const watchers: FSWatcher[] = [];
  let timer: NodeJS.Timeout | undefined;
  let waitingSince = 0;
  const stop = (): void => {
    clearTimeout(timer);
    for (const watcher of watchers.splice(0)) watcher.close();
  };
  const lose = (folder: string): void => {
    if (watchers.length === 0) return;
    stop();
    told.lost(new StoreTrouble(`${folder} can no longer be watched: put it back, then start again.`));
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
    for (const [folder, names] of byFolder(paths)) {
      const watcher = inPlainWords(folder, () => watch(folder));
      watchers.push(watcher);
      watcher.on('error', () => lose(folder));
      watcher.on('change', (_, name) => {
        if (!existsSync(folder)) lose(folder);
        // Some systems do not say which file it was.
        else if (name === null || isMeant(String(name), names)) soon();
      });
    }
  } catch (trouble) {
    stop();
    throw trouble;
  }
  return stop;
}

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

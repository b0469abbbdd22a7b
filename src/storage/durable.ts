import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** Makes the names in a folder survive a power cut: a new file is only safe when its folder is on disk as well. */
export function syncFolder(folder: string): void {
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Makes a folder, and those above it, durable; `mode` applies to folders made here. Step by step: Node's own way hides why it fails. */
export function makeFolder(folder: string, mode = 0o777): void {
  if (isFolder(folder)) return;
  makeFolder(dirname(folder), mode);
  try {
    mkdirSync(folder, { mode });
  } catch (error) {
    // Another process may have been faster.
    if (!isFolder(folder)) throw error;
  }
  syncFolder(dirname(folder));
}

/** Writes a whole file or nothing: a reader, also after a power cut, sees the old content or the new one and no mixture. */
export function replaceFile(file: string, content: string, mode = 0o666): void {
  const draft = join(dirname(file), `.${basename(file)}.${process.pid}`);
  try {
    const handle = openSync(draft, 'w', mode);
    try {
      writeFileSync(handle, content);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(draft, file);
  } catch (error) {
    rmSync(draft, { force: true });
    throw error;
  }
  syncFolder(dirname(file));
}

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;

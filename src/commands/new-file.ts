import { closeSync, fsyncSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { ok, type Result, refuse } from '../base/result.ts';
import { codeOf, inPlainWords } from '../storage/trouble.ts';
import type { Io } from './io.ts';

/**
 * Makes a file that is not there yet, from where the command was called, and answers its name. Its place is taken before `make` is asked
 * what is to stand in it: what `make` records is not recorded for a file that cannot be. Refused when there is a file already, as
 * it may be the only one of its kind; without a trace of it when `make` refuses. Throws `StoreTrouble`.
 */
export async function newFile(name: string, io: Io, make: () => Promise<Result<string>>): Promise<Result<string>> {
  const path = resolve(io.cwd, name);
  const handle = inPlainWords(path, () => taken(path));
  if (handle === undefined)
    return refuse(
      'file-there',
      `There is a file ${name} already, and it may be needed: move it away, or name another.`,
    );
  let isWhole = false;
  try {
    const made = await make();
    if (!made.ok) return made;
    inPlainWords(path, () => {
      writeFileSync(handle, made.value);
      fsyncSync(handle);
    });
    isWhole = true;
    return ok(name);
  } finally {
    closeSync(handle);
    if (!isWhole) rmSync(path, { force: true });
  }
}

/** A name as a file can have it: a ledger that somebody else made may have named a ticket after a place. */
export const fileName = (name: string): string => name.replace(/[^\p{L}\p{N}._-]/gu, '-');

/** The new file, open to be written; undefined where there is one. */
function taken(path: string): number | undefined {
  try {
    return openSync(path, 'wx');
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return undefined;
    throw error;
  }
}

import { existsSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { ok, type Result, refuse } from '../base/result.ts';
import { inPlainWords } from '../storage/trouble.ts';
import type { Io } from './io.ts';

/** A file that is not there yet. */
export interface NewFile {
  readonly name: string;
  /** Makes it, durably; throws `StoreTrouble` when it cannot be, or somebody else made it meanwhile. */
  write(text: string): void;
}

/** The place of a file to be made, from where the command was called. Refused when there is one: it may be the only one of its kind. */
export function newFile(name: string, io: Io): Result<NewFile> {
  const path = resolve(io.cwd, name);
  if (existsSync(path))
    return refuse('file-there', `There is a file ${name} already, and it may be needed: name another with --out.`);
  return ok({
    name,
    write: (text) => inPlainWords(path, () => writeFileSync(path, text, { flag: 'wx', flush: true })),
  });
}

/** A name as a file can have it: a ledger that somebody else made may have named a ticket after a place. */
export const fileName = (name: string): string => name.replace(/[^\p{L}\p{N}._-]/gu, '-');

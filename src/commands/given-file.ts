import { readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { ok, type Result, refuse } from '../base/result.ts';
import { codeOf, refuseTrouble } from '../storage/trouble.ts';
import type { Io } from './io.ts';

/**
 * The bytes of a file that somebody names, from where the command was called. `tooLong` goes on from its name where it is larger than 64 MB.
 * Refused as `file-kind`, `file-size`, `file-missing` or `file-unreadable`.
 */
export function givenFile(file: string, tooLong: string, io: Io): Result<Uint8Array> {
  const path = resolve(io.cwd, file);
  try {
    const found = statSync(path);
    // A pipe or a device would be read for ever.
    if (!found.isFile()) return refuse('file-kind', `${file} is no file: check its name.`);
    if (found.size > LIMIT) return refuse('file-size', `${file} ${tooLong}`);
    return ok(readFileSync(path));
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return refuse('file-missing', `There is no file ${file}: check its name.`);
    return refuseTrouble('file-unreadable', error, path);
  }
}

/** Bytes. Neither the receipt of the largest bundle nor a pattern of all the pieces of a room is as long. */
const LIMIT = 64_000_000;

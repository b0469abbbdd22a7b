import { accessSync, constants, existsSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { refuse } from '../base/result.ts';
import { StoreTrouble } from '../ledger/ledger-store.ts';

/**
 * Runs `work` on `path`. What the disk or SQLite objects to is thrown as a `StoreTrouble`; anything else is a bug and passes
 * through unchanged.
 */
export function inPlainWords<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw troubleOf(error, path) ?? error;
  }
}

/**
 * `inPlainWords` for statements on a ledger that are known to fit it as it was built: what SQLite cannot make sense of, a column that is
 * gone or an entry that is no JSON, is then the fault of the file.
 */
export function inLedgerWords<T>(path: string, work: () => T): T {
  try {
    return inPlainWords(path, work);
  } catch (error) {
    if (isNonsense(error)) throw new StoreTrouble(damaged(path), { cause: error });
    throw error;
  }
}

/** One plain sentence for an error of the disk or of SQLite about `path`; `undefined` for any other error. */
function troubleOf(error: unknown, path: string): StoreTrouble | undefined {
  if (error instanceof StoreTrouble) return error;
  if (!(error instanceof Error)) return undefined;
  const sentence = sentenceOfSqlite(error, path) ?? sentenceOfSystem(codeOf(error), path);
  return sentence === undefined ? undefined : new StoreTrouble(sentence, { cause: error });
}

/** The same as a refusal, for what a person can put right and try again; a bug is thrown on. */
export function refuseTrouble(rule: string, error: unknown, path: string): ReturnType<typeof refuse> {
  const trouble = troubleOf(error, path);
  if (!trouble) throw error;
  return refuse(rule, trouble.message);
}

/** Whether SQLite gave up because another connection holds the lock. */
export const isBusy = (error: unknown): boolean => error instanceof Error && [5, 6].includes(primaryCode(error) ?? 0);

/** Whether a statement does not fit the file, or a value in the file not the statement. */
export const isNonsense = (error: unknown): boolean => error instanceof Error && primaryCode(error) === 1;

/** The primary result code (https://sqlite.org/rescode.html); the extended one carries it in its low byte. */
function primaryCode(error: Error): number | undefined {
  if (codeOf(error) !== 'ERR_SQLITE_ERROR' || !('errcode' in error) || typeof error.errcode !== 'number')
    return undefined;
  return error.errcode & 0xff;
}

function sentenceOfSqlite(error: Error, path: string): string | undefined {
  switch (primaryCode(error)) {
    case 3: // PERM
    case 8: // READONLY
    case 14: // CANTOPEN
      return sentenceOfObstacle(path);
    case 5: // BUSY
    case 6: // LOCKED
    case 15: // PROTOCOL
      return `${path} is in use by another program that does not let go: close that program, then do the last point again.`;
    case 10: // IOERR, also when a file reaches the size its user may write
      return `The disk does not take what is written to ${path}: check that it has room and is sound, then do the last point again.`;
    case 11: // CORRUPT
      return damaged(path);
    case 13: // FULL
      return sentenceOfSystem('ENOSPC', path);
    case 26: // NOTADB
      return `${path} is no ledger, or its beginning is damaged: keep the file as it is, and put back the last good copy of the room.`;
    default:
      return undefined;
  }
}

/** What is said of a ledger whose content cannot be right. */
export const damaged = (path: string): string =>
  `The ledger ${path} is damaged: stop work, keep the file as it is, and put back the last good copy of the room.`;

function sentenceOfSystem(code: string | undefined, path: string): string | undefined {
  switch (code) {
    case 'ENOENT':
      return `${path} is not there: check the name of the folder, or put back what was moved away.`;
    case 'ENOTDIR':
      return `${path} cannot be reached, because a part of its name is a file and no folder: check the name.`;
    case 'EISDIR':
      return `${path} is a folder where a file should be: move it away.`;
    case 'EEXIST':
      return `${path} is there already: choose another name, or move it away.`;
    case 'EACCES':
    case 'EPERM':
      return `You may not write or read ${path}: ask whoever looks after this machine for access to the room's folder.`;
    case 'EROFS':
      return `${path} is on a disk that is set to read-only: make it writable, or copy the room to a disk that is.`;
    case 'ENOSPC':
    case 'EDQUOT':
    case 'EFBIG':
      return `There is no room left on the disk of ${path}, and nothing was recorded: make space, then do the last point again.`;
    case 'EIO':
      return `The disk of ${path} reports an error: copy the room to a sound disk before going on.`;
    case 'EMFILE':
    case 'ENFILE':
      return `${path} cannot be opened, because too many files are open on this machine: close other programs and try again.`;
    case 'ELOOP':
    case 'ENAMETOOLONG':
      return `${path} leads nowhere: check the name of the folder.`;
    case 'EBUSY':
    case 'ETXTBSY':
      return `${path} is in use by another program: close that program and try again.`;
    default:
      return undefined;
  }
}

/** SQLite says only that it could not open or write; the file system says what and why. It keeps two files of its own beside the ledger. */
function sentenceOfObstacle(path: string): string | undefined {
  const beside = ['-wal', '-shm'].map((end) => path + end).filter((file) => existsSync(file));
  const inFolder = obstacleAt(dirname(path), constants.W_OK | constants.X_OK);
  if (inFolder !== undefined) return sentenceOfSystem(inFolder, path);
  for (const file of [path, ...beside]) {
    const inFile =
      obstacleAt(file, constants.R_OK | constants.W_OK) ?? (statSync(file).isDirectory() ? 'EISDIR' : null);
    if (inFile !== null) return sentenceOfSystem(inFile, file);
  }
  return sentenceOfSystem('EACCES', path);
}

function obstacleAt(place: string, mode: number): string | undefined {
  try {
    accessSync(place, mode);
    return undefined;
  } catch (error) {
    return codeOf(error) ?? 'EACCES';
  }
}

/** The error's own code, such as `ENOENT`. */
export function codeOf(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;
}

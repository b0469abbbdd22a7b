import type { Digest } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { fromBase64, toBase64 } from './base64.ts';
import type { SigningKey, VerifierKey } from './note-key.ts';
import { openNote, signNote } from './signed-note.ts';
import { isDigest } from './tree.ts';

/** What a ledger looked like at a moment: C2SP tlog-checkpoint (c2sp.org/tlog-checkpoint). */
export interface Checkpoint {
  /** Whose ledger: the station's name. */
  readonly origin: string;
  /** How many entries. */
  readonly size: number;
  /** Root of their tree. */
  readonly root: Digest;
  /** Lines that others may have added; this program adds none. */
  readonly extensions: readonly string[];
}

/** The checkpoint as a signed note. Its origin is the key's name. A size or a root that cannot be is a bug and throws. */
export function signCheckpoint({ size, root }: Pick<Checkpoint, 'size' | 'root'>, key: SigningKey): string {
  if (!Number.isSafeInteger(size) || size < 0 || !isDigest(root)) throw new Error('this is no state of a ledger');
  return signNote(`${key.name}\n${size}\n${toBase64(Buffer.from(root, 'hex'))}\n`, key);
}

/** Reads a checkpoint that the key's owner signed for their own ledger; refuses every other. Never throws. */
export function openCheckpoint(note: string, key: VerifierKey): Result<Checkpoint> {
  const text = openNote('The checkpoint', note, key);
  if (!text.ok) return text;
  const read = readCheckpoint(text.value);
  if (!read.ok || read.value.origin === key.name) return read;
  return refuse('checkpoint-origin', `The checkpoint is of ${read.value.origin} and not of ${key.name}.`);
}

/** Reads a checkpoint's text, that is a note's without its signatures. Never throws. */
export function readCheckpoint(text: string): Result<Checkpoint> {
  const [origin = '', size = '', encoded = '', ...rest] = text.split('\n');
  const extensions = rest.slice(0, -1);
  const root = fromBase64(encoded);
  if (rest.at(-1) !== '' || origin === '' || extensions.includes('') || !DECIMAL.test(size) || root?.length !== 32)
    return refuse('checkpoint-form', 'This is no checkpoint: it should give a name, a number of entries and a root.');
  if (!Number.isSafeInteger(Number(size)))
    return refuse('checkpoint-size', 'The checkpoint is of more entries than this program can count.');
  return ok({ origin, size: Number(size), root: root.toString('hex') as Digest, extensions });
}

const DECIMAL = /^(0|[1-9]\d{0,19})$/;

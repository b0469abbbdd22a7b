import { sign, verify } from 'node:crypto';
import { ok, type Result, refuse } from '../base/result.ts';
import { fromBase64, toBase64 } from './base64.ts';
import { isKeyName, type SigningKey, type VerifierKey, verifierOf } from './note-key.ts';

/**
 * The text with a signature below it: C2SP signed-note (c2sp.org/signed-note), Ed25519. The text ends in a line feed and
 * holds no other control character; a text that cannot be signed is a bug and throws.
 */
export function signNote(text: string, key: SigningKey): string {
  if (!isText(text))
    throw new Error('this text cannot be signed: it must end in a line feed and hold no control characters');
  const { id } = verifierOf(key);
  const signature = sign(null, Buffer.from(text), key.privateKey);
  const note = `${text}\n${DASH} ${key.name} ${toBase64(Buffer.concat([Buffer.from(id, 'hex'), signature]))}\n`;
  if (note.length > LONGEST_NOTE) throw new Error('this text is too long to be signed');
  return note;
}

/**
 * The text that the key signed, its last line feed with it. Refuses a note in any other form, one that the key did not sign, and
 * one where a signature in the key's name does not fit; signatures of other keys are left alone. `what` begins the sentence
 * of a refusal, such as `The checkpoint`. Never throws.
 */
export function openNote(what: string, note: string, key: VerifierKey): Result<string> {
  const read = readNote(what, note);
  if (!read.ok) return read;
  const { text, signatures } = read.value;
  const ours = signatures.filter(({ name, id }) => name === key.name && id === key.id);
  if (ours.length === 0) {
    const others = signatures.map(({ name, id }) => `${name}+${id}`).join(', ');
    return refuse('note-key', `${what} is signed with another key, ${others}, and not with ${key.name}+${key.id}.`);
  }
  const bytes = Buffer.from(text);
  if (!ours.every(({ signature }) => verify(null, bytes, key.publicKey, signature)))
    return refuse(
      'note-signature',
      `${what} was changed after it was signed: the signature of ${key.name} does not fit.`,
    );
  return ok(text);
}

/** What stands above the signatures, whoever made them. */
export function unsignedText(what: string, note: string): Result<string> {
  const read = readNote(what, note);
  return read.ok ? ok(read.value.text) : read;
}

/** UTF-16 units; a receipt of a bundle of ten thousand entries is shorter. */
export const LONGEST_NOTE = 16 * 2 ** 20;

interface Note {
  readonly text: string;
  readonly signatures: readonly Signature[];
}

interface Signature {
  readonly name: string;
  readonly id: string;
  readonly signature: Buffer;
}

function readNote(what: string, note: string): Result<Note> {
  const end = note.lastIndexOf('\n\n') + 1;
  const text = note.slice(0, end);
  const below = note.slice(end + 1);
  if (note.length > LONGEST_NOTE) return refuse('note-long', `${what} is longer than this program reads.`);
  if (note.includes('\r'))
    return refuse('note-lines', `${what} had its line ends changed on the way: send it as a file, not as text.`);
  if (!isText(text) || !below.endsWith('\n'))
    return refuse('note-form', `${what} is cut off, or it is no signed text.`);
  const lines = below.slice(0, -1).split('\n', MOST_SIGNATURES + 1);
  if (lines.length > MOST_SIGNATURES)
    return refuse('note-signatures', `${what} has more than ${MOST_SIGNATURES} signatures.`);
  const signatures = lines.map(readSignature);
  const good = signatures.filter((one) => one !== undefined);
  if (good.length < signatures.length)
    return refuse('note-form', `${what} has a signature that cannot be read, so it was changed or cut.`);
  return ok({ text, signatures: good });
}

function readSignature(line: string): Signature | undefined {
  const [dash, name = '', encoded = '', ...more] = line.split(' ');
  const bytes = fromBase64(encoded);
  if (dash !== DASH || more.length > 0 || !isKeyName(name) || !bytes || bytes.length < 5) return undefined;
  return { name, id: bytes.toString('hex', 0, 4), signature: bytes.subarray(4) };
}

const isText = (text: string): boolean => /^[^\0-\x09\x0b-\x1f]*\n$/.test(text) && text.isWellFormed();

const DASH = '—';
/** The standard asks for at least 16. */
const MOST_SIGNATURES = 100;

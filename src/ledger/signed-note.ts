import {
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  hash,
  type KeyObject,
  sign,
  verify,
} from 'node:crypto';
import { ok, type Result, refuse } from '../base/result.ts';

/** A station's own key: it signs in the station's name. */
export interface SigningKey {
  readonly name: string;
  readonly secret: KeyObject;
}

/** What others need to check a signature: a C2SP verifier key, read. */
export interface VerifierKey {
  readonly name: string;
  /** First 4 bytes of SHA-256(name ‖ LF ‖ 0x01 ‖ public key), in hexadecimal. */
  readonly id: string;
  readonly key: KeyObject;
}

/** C2SP signed-note: the algorithm byte of Ed25519. */
const ED25519 = 1;
/** A name without spaces of any kind and without `+`. */
const KEY_NAME = /^[^\s+\p{C}]+$/u;
/** More than a note of ours, or of anybody we know, holds. Characters. */
const LONGEST_NOTE = 65_536;

/** A new key from the machine's source of chance. */
export const newSigningKey = (name: string): SigningKey => ({
  name,
  secret: generateKeyPairSync('ed25519').privateKey,
});

/** The key as PKCS #8 in PEM (RFC 8410), which is how it lies in its file. */
export const secretText = ({ secret }: SigningKey): string => String(secret.export({ type: 'pkcs8', format: 'pem' }));

/** Reads what `secretText` wrote. */
export function readSecret(name: string, pem: string): Result<SigningKey> {
  try {
    const secret = createPrivateKey(pem);
    if (secret.asymmetricKeyType === 'ed25519') return ok({ name, secret });
  } catch {}
  return refuse('key-unreadable', 'It holds no Ed25519 key.');
}

/** `name+id+base64(0x01 ‖ public key)`: the C2SP verifier key of this station, for whoever is to check it. */
export function verifierKeyOf({ name, secret }: SigningKey): string {
  const { x = '' } = createPublicKey(secret).export({ format: 'jwk' });
  const bytes = Buffer.concat([Buffer.from([ED25519]), Buffer.from(x, 'base64url')]);
  return `${name}+${keyId(name, bytes)}+${bytes.toString('base64')}`;
}

/** Reads a C2SP verifier key of the Ed25519 kind. */
export function readVerifierKey(text: string): Result<VerifierKey> {
  const wrong = (what: string) =>
    refuse(
      'verifier-key',
      `This is no key to check signatures with: ${what}. Copy the whole line that \`walkfoot station\` prints.`,
    );
  const [, name = '', id = '', base64 = ''] =
    /^([^+]*)\+([0-9a-f]{8})\+([A-Za-z0-9+/]+={0,2})$/.exec(text.trim()) ?? [];
  if (!KEY_NAME.test(name)) return wrong('it is not of the form name+id+key');
  const bytes = fromBase64(base64);
  if (bytes?.length !== 33 || bytes[0] !== ED25519) return wrong('it is not an Ed25519 key');
  if (keyId(name, bytes) !== id) return wrong('its parts do not belong together');
  const x = bytes.subarray(1).toString('base64url');
  return ok({ name, id, key: createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x }, format: 'jwk' }) });
}

/** The text, which ends with a line feed, with this key's signature below: a C2SP signed note. */
export function signNote(text: string, key: SigningKey): string {
  if (!text.endsWith('\n')) throw new Error('a note ends with a line feed');
  const id = readVerifierKey(verifierKeyOf(key));
  if (!id.ok) throw new Error(`${key.name} cannot be the name of a key`);
  const signature = sign(null, Buffer.from(text), key.secret);
  const bytes = Buffer.concat([Buffer.from(id.value.id, 'hex'), signature]);
  return `${text}\n— ${key.name} ${bytes.toString('base64')}\n`;
}

/** What stands above the signatures, whoever made them. */
export function unsignedText(note: string): Result<string> {
  const split = note.lastIndexOf('\n\n');
  return split < 0
    ? refuse('note-unreadable', 'This is no signed note: no signature stands below an empty line.')
    : ok(note.slice(0, split + 1));
}

/**
 * The text of a signed note, when one of these keys signed it. Signatures of other keys are passed over; one of a known key that
 * does not hold spoils the note.
 */
export function openNote(note: string, keys: readonly VerifierKey[]): Result<string> {
  const wrong = (what: string) => refuse('note-unreadable', `This is no signed note: ${what}.`);
  if (note.length > LONGEST_NOTE) return wrong('it is far too long');
  if (!note.isWellFormed() || CONTROL.test(note)) return wrong('it holds characters that none has');
  const unsigned = unsignedText(note);
  if (!unsigned.ok) return unsigned;
  const text = unsigned.value;
  const lines = note.slice(text.length + 1);
  if (lines === '' || !lines.endsWith('\n')) return wrong('its last line is cut off');
  let signed = false;
  for (const line of lines.slice(0, -1).split('\n')) {
    const [, name = '', base64 = ''] = /^— (\S+) (\S+)$/u.exec(line) ?? [];
    const bytes = fromBase64(base64);
    if (!KEY_NAME.test(name) || !bytes || bytes.length < 5) return wrong('a line below the empty one is no signature');
    const id = bytes.toString('hex', 0, 4);
    const key = keys.find((each) => each.name === name && each.id === id);
    if (!key) continue;
    if (!verify(null, Buffer.from(text), key.key, bytes.subarray(4)))
      return refuse(
        'note-signature',
        `The signature of ${name} does not belong to this text: one of them was changed.`,
      );
    signed = true;
  }
  const names = [...new Set(keys.map((key) => key.name))].join(', ');
  return signed ? ok(text) : refuse('note-unsigned', `The key that was given (${names}) did not sign this.`);
}

/** Below the space only the line feed may stand in a note. */
const CONTROL = /[\u0000-\u0009\u000b-\u001f]/;

const keyId = (name: string, bytes: Uint8Array): string =>
  hash('sha256', Buffer.concat([Buffer.from(`${name}\n`), bytes]), 'hex').slice(0, 8);

/** Undefined for what is not exactly the base64 of its bytes. */
function fromBase64(text: string): Buffer | undefined {
  const bytes = Buffer.from(text, 'base64');
  return text !== '' && bytes.toString('base64') === text ? bytes : undefined;
}

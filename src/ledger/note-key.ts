import { createPrivateKey, createPublicKey, generateKeyPairSync, hash, type KeyObject } from 'node:crypto';
import { ok, type Result, refuse } from '../base/result.ts';
import { fromBase64, toBase64 } from './base64.ts';

/** Signs notes under a name; `privateKey` is an Ed25519 key of node:crypto. */
export interface SigningKey {
  readonly name: string;
  readonly privateKey: KeyObject;
}

/** Checks notes that were signed under a name. */
export interface VerifierKey {
  readonly name: string;
  /** First four bytes of SHA-256(name ‖ "\n" ‖ 0x01 ‖ public key), in hexadecimal. */
  readonly id: string;
  readonly publicKey: KeyObject;
}

/** A new key from the machine's source of chance. */
export const newSigningKey = (name: string): SigningKey => ({
  name,
  privateKey: generateKeyPairSync('ed25519').privateKey,
});

/** The key as PKCS #8 in PEM (RFC 8410), which is how it lies in its file. */
export const secretText = ({ privateKey }: SigningKey): string =>
  String(privateKey.export({ type: 'pkcs8', format: 'pem' }));

/** Reads what `secretText` wrote. */
export function readSecret(name: string, pem: string): Result<SigningKey> {
  try {
    const privateKey = createPrivateKey(pem);
    if (privateKey.asymmetricKeyType === 'ed25519') return ok({ name, privateKey });
  } catch {}
  return refuse('key-unreadable', 'It holds no Ed25519 key.');
}

/** The verifier's half of a key. Throws when the key cannot be used to sign notes, which whoever made it should have seen. */
export function verifierOf({ name, privateKey }: SigningKey): VerifierKey {
  if (!isKeyName(name) || privateKey.asymmetricKeyType !== 'ed25519') throw new Error(`${name} cannot sign notes`);
  const publicKey = createPublicKey(privateKey);
  return { name, id: idOf(name, typed(publicKey)), publicKey };
}

/** A verifier key as one word, `name+id+base64(0x01 ‖ public key)`: C2SP signed-note, as its users write keys. */
export const verifierKeyText = ({ name, id, publicKey }: VerifierKey): string =>
  `${name}+${id}+${toBase64(typed(publicKey))}`;

/** Reads a verifier key, blanks around it aside. */
export function readVerifierKey(text: string): Result<VerifierKey> {
  const [, name = '', id = '', encoded = ''] = /^([^+]+)\+([0-9a-f]{8})\+(.+)$/.exec(text.trim()) ?? [];
  const bytes = fromBase64(encoded);
  if (!isKeyName(name) || !bytes)
    return refuse(
      'key-form',
      'This is no key: write it whole, as `walkfoot station` prints it, from the name to the end.',
    );
  if (bytes[0] !== ED25519 || bytes.length !== 33)
    return refuse('key-kind', `The key of ${name} is of a kind this program does not use: it takes Ed25519 keys only.`);
  if (idOf(name, bytes) !== id)
    return refuse(
      'key-id',
      `The key of ${name} was mistyped or changed, for its parts do not belong together: copy it again.`,
    );
  const x = bytes.subarray(1).toString('base64url');
  return ok({ name, id, publicKey: createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x }, format: 'jwk' }) });
}

/** Names of keys: no blanks of any script, no plus, nothing a note could not hold. */
export const isKeyName = (name: string): boolean => /^[^\p{White_Space}\p{Cc}\p{Cs}+]+$/u.test(name);

/** Type of signature in C2SP signed-note. */
const ED25519 = 1;

/** 0x01 and the 32 bytes of RFC 8032. */
function typed(publicKey: KeyObject): Buffer {
  const { x = '' } = publicKey.export({ format: 'jwk' });
  return Buffer.concat([Buffer.of(ED25519), Buffer.from(x, 'base64url')]);
}

const idOf = (name: string, typedKey: Uint8Array): string =>
  hash('sha256', Buffer.concat([Buffer.from(`${name}\n`), typedKey]), 'hex').slice(0, 8);

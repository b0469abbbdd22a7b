import { createPrivateKey } from 'node:crypto';
import type { SigningKey } from '../../src/ledger/note-key.ts';

/** The Ed25519 key of a seed of 32 bytes: the same key at every run. PKCS #8 as RFC 8410 section 7. */
export const keyFromSeed = (name: string, seedHex: string): SigningKey => ({
  name,
  privateKey: createPrivateKey({
    key: Buffer.from(`302e020100300506032b657004220420${seedHex}`, 'hex'),
    format: 'der',
    type: 'pkcs8',
  }),
});

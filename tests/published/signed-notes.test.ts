import { createPrivateKey, sign, verify } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { checkpointText, readCheckpoint } from '../../src/ledger/checkpoint.ts';
import {
  openNote,
  readSecret,
  readVerifierKey,
  secretText,
  signNote,
  verifierKeyOf,
} from '../../src/ledger/signed-note.ts';
import vectors from './data/signed-notes.json' with { type: 'json' };

/** RFC 8410: PKCS #8 of an Ed25519 seed is this head and the seed. */
const keyOf = (name: string, seedHex: string) => {
  const der = Buffer.concat([Buffer.from('302e020100300506032b657004220420', 'hex'), Buffer.from(seedHex, 'hex')]);
  return { name, secret: createPrivateKey({ key: der, format: 'der', type: 'pkcs8' }) };
};

/** The verifier key of a bare public key, by way of the one of a key with that name. */
function opened(vkey: string, note: string) {
  const key = readVerifierKey(vkey);
  if (!key.ok) throw new Error(key.error.message);
  return openNote(note, [key.value]);
}

describe(vectors.source[0] ?? '', () => {
  test.each(vectors.ed25519)('$name', ({ seedHex, publicKeyHex, messageHex, signatureHex }) => {
    const key = keyOf('test', seedHex);
    const vkey = Buffer.from(verifierKeyOf(key).split('+').slice(2).join('+'), 'base64');
    expect(vkey.toString('hex')).toBe(`01${publicKeyHex}`);
    expect(sign(null, Buffer.from(messageHex, 'hex'), key.secret).toString('hex')).toBe(signatureHex);
  });
});

test.each(vectors.acvp)(
  `${vectors.source[1]}: valid is $valid`,
  ({ publicKeyHex, messageHex, signatureHex, valid }) => {
    const x = Buffer.from(publicKeyHex, 'hex').toString('base64url');
    const key = { key: { kty: 'OKP', crv: 'Ed25519', x }, format: 'jwk' } as const;
    expect(verify(null, Buffer.from(messageHex, 'hex'), key, Buffer.from(signatureHex, 'hex'))).toBe(valid);
  },
);

describe(vectors.source[2] ?? '', () => {
  test.each(vectors.notes)('the note signed by $vkey', ({ vkey, note }) => {
    expect(opened(vkey, note)).toEqual({ ok: true, value: note.slice(0, note.lastIndexOf('\n\n') + 1) });
    expect(opened(vkey, note.replace('y', 'x'))).toMatchObject({ ok: false, error: { rule: 'note-signature' } });
  });

  test('a checkpoint is read and written as published', () => {
    const read = readCheckpoint(vectors.checkpointText);
    expect(read).toMatchObject({ ok: true, value: { origin: 'example.com/behind-the-sofa', size: 20852163 } });
    if (read.ok) expect(checkpointText(read.value)).toBe(vectors.checkpointText);
  });

  test('a signed checkpoint comes out byte for byte', () => {
    const { vkey, checkpoint, seedHex } = vectors.checkpoint;
    const key = keyOf('example.com/workroom-log', seedHex);
    expect(verifierKeyOf(key)).toBe(vkey);
    const text = checkpoint.slice(0, checkpoint.lastIndexOf('\n\n') + 1);
    expect(signNote(text, key)).toBe(checkpoint);
    expect(opened(vkey, checkpoint)).toEqual({ ok: true, value: text });
    expect(readSecret(key.name, secretText(key))).toMatchObject({ ok: true });
  });
});

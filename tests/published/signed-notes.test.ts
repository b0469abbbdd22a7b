import { createPublicKey, sign, verify } from 'node:crypto';
import { expect, test } from 'vitest';
import { openCheckpoint, readCheckpoint, signCheckpoint } from '../../src/ledger/checkpoint.ts';
import { readVerifierKey, type VerifierKey, verifierKeyText, verifierOf } from '../../src/ledger/note-key.ts';
import { openNote, signNote } from '../../src/ledger/signed-note.ts';
import { keyFromSeed } from '../ledger/key-from-seed.ts';
import merkle from './data/merkle-tree.json' with { type: 'json' };
import vectors from './data/signed-notes.json' with { type: 'json' };

const [rfc8032, acvp, signedNote, tlogCheckpoint, ours] = vectors.source;

test.each(vectors.ed25519)(`$name: ${rfc8032}`, ({ seedHex, publicKeyHex, messageHex, signatureHex }) => {
  const key = keyFromSeed('a', seedHex);
  const { publicKey } = verifierOf(key);
  expect(publicKey.export({ format: 'jwk' }).x).toBe(Buffer.from(publicKeyHex, 'hex').toString('base64url'));
  expect(sign(null, Buffer.from(messageHex, 'hex'), key.privateKey).toString('hex')).toBe(signatureHex);
});

test.each(vectors.acvp)(
  `a signature that is valid ($valid): ${acvp}`,
  ({ publicKeyHex, messageHex, signatureHex, valid }) => {
    const x = Buffer.from(publicKeyHex, 'hex').toString('base64url');
    const key = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x }, format: 'jwk' });
    expect(verify(null, Buffer.from(messageHex, 'hex'), key, Buffer.from(signatureHex, 'hex'))).toBe(valid);
  },
);

test.each(vectors.notes)(`the note signed with $vkey: ${signedNote}`, ({ vkey, note }) => {
  const key = keyOf(vkey);
  expect(verifierKeyText(key)).toBe(vkey);
  expect(openNote('The note', note, key)).toEqual({ ok: true, value: note.slice(0, note.lastIndexOf('\n\n') + 1) });
  expect(openNote('The note', note.replace('you', 'they').replace('is an', 'is no'), key)).toMatchObject({
    error: { rule: 'note-signature' },
  });
});

test(`a checkpoint's text: ${tlogCheckpoint}`, () => {
  const root = Buffer.from('CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=', 'base64').toString('hex');
  const value = { origin: 'example.com/behind-the-sofa', size: 20_852_163, root, extensions: [] };
  expect(readCheckpoint(vectors.checkpointText)).toEqual({ ok: true, value });
});

test(`a checkpoint signed and opened: ${ours}`, () => {
  const { vkey, checkpoint, seedHex } = vectors.checkpoint;
  const key = keyFromSeed('example.com/workroom-log', seedHex);
  const opened = openCheckpoint(checkpoint, keyOf(vkey));
  expect(opened).toMatchObject({ ok: true, value: { size: 8, root: merkle.roots[8] } });
  expect(opened.ok && signCheckpoint(opened.value, key)).toBe(checkpoint);
  expect(verifierKeyText(verifierOf(key))).toBe(vkey);
  expect(signNote(checkpoint.slice(0, checkpoint.indexOf('\n\n') + 1), key)).toBe(checkpoint);
});

function keyOf(vkey: string): VerifierKey {
  const key = readVerifierKey(vkey);
  if (!key.ok) throw new Error(key.error.message);
  return key.value;
}

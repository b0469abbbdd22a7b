import { expect, test } from 'vitest';
import { isPin } from '../../src/ledger/scrypt-pin.ts';

/** RFC 7914 (2016), section 12, the third test vector, from memory. */
const vector = {
  password: 'pleaseletmein',
  salt: Buffer.from('SodiumChloride').toString('hex'),
  n: 16_384,
  r: 8,
  p: 1,
  hash: '7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887',
};

test('what is kept of a PIN is scrypt as published', async () => {
  expect(await isPin(vector.password, vector)).toBe(true);
  expect(await isPin('pleaseletmeout', vector)).toBe(false);
});

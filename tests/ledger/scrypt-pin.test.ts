import { expect, test } from 'vitest';
import { isPin, sealPin } from '../../src/ledger/scrypt-pin.ts';

const salt = Buffer.from('0123456789abcdef');

test('a sealed PIN knows the right one and no other, and does not hold it', async () => {
  const sealed = await sealPin('7305', salt);
  expect(JSON.stringify(sealed)).not.toContain('7305');
  expect(await Promise.all(['7305', '7306', '', '73055'].map((pin) => isPin(pin, sealed)))).toEqual([
    true,
    false,
    false,
    false,
  ]);
  expect((await sealPin('7305', Buffer.from('fedcba9876543210'))).hash).not.toBe(sealed.hash);
});

test('letters are the same however they are composed', async () => {
  expect(await isPin('nähmaschine', await sealPin('na\u0308hmaschine', salt))).toBe(true);
});

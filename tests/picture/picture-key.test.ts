import { expect, test } from 'vitest';
import type { Digest } from '../../src/base/brand.ts';
import { pictureKey } from '../../src/picture/picture-key.ts';
import { readSample } from './read-sample.ts';

const seen = { is: 'drawing', digest: 'd1' as Digest, drawing: readSample('lining'), scale: 'to scale' } as const;
const area = { columns: 20, rows: 10 };
const nothing = { broughtOut: [], sewn: [] };

test('drawings are told apart by all that their pictures are made from', () => {
  const keys = [
    pictureKey(seen, area, nothing),
    pictureKey({ ...seen, digest: 'd2' as Digest }, area, nothing),
    pictureKey(seen, { columns: 21, rows: 10 }, nothing),
    pictureKey(seen, { columns: 20, rows: 11 }, nothing),
    pictureKey(seen, area, { broughtOut: ['A'], sewn: [] }),
    pictureKey(seen, area, { broughtOut: [], sewn: ['A'] }),
  ];
  expect(new Set(keys).size).toBe(keys.length);
});

test('a photograph is the same whatever is sewn', () => {
  const greys = { columns: 1, rows: 1, values: new Uint8Array(1) };
  const photo = { is: 'photograph', digest: 'p1' as Digest, bytes: new Uint8Array(1), greys } as const;
  expect(pictureKey(photo, area, { broughtOut: ['A'], sewn: ['B'] })).toBe(pictureKey(photo, area, nothing));
  expect(pictureKey(photo, area, nothing)).not.toBe(pictureKey(photo, { columns: 21, rows: 10 }, nothing));
});

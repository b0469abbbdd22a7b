import { decode } from 'sixel';
import { expect, test } from 'vitest';
import { kittyDelete, kittyPicture } from '../../src/terminal/kitty.ts';
import { sixelPicture } from '../../src/terminal/sixel.ts';

/** The commands of the Kitty protocol in a text, keys and payload apart. */
const commands = (text: string) =>
  [...text.matchAll(/\x1b_G([^;\x1b]*);?([^\x1b]*)\x1b\\/g)].map(([, keys = '', payload = '']) => ({
    keys: Object.fromEntries(keys.split(',').map((pair) => pair.split('='))),
    payload,
  }));

test('a PNG goes to a terminal of the Kitty protocol in pieces, and is put together again', () => {
  const png = Uint8Array.from({ length: 10_000 }, (_, at) => (at * 7) % 256);
  const sent = kittyPicture(png, 7, { columns: 40, rows: 12 });
  const all = commands(sent);
  expect(all.map(({ keys }) => keys.m)).toEqual(['1', '1', '1', '0']);
  expect(all[0]?.keys).toMatchObject({ a: 'T', f: '100', i: '7', p: '1', c: '40', r: '12', C: '1', q: '2' });
  for (const { keys, payload } of all) {
    expect(keys.q).toBe('2');
    expect(payload.length).toBeLessThanOrEqual(4096);
  }
  for (const { payload } of all.slice(0, -1)) expect(payload.length % 4).toBe(0);
  expect(Uint8Array.from(Buffer.from(all.map(({ payload }) => payload).join(''), 'base64'))).toEqual(png);
  // Nothing beside the commands reaches the screen.
  expect(sent.replace(/\x1b_G[^\x1b]*\x1b\\/g, '')).toBe('');
});

test('a small PNG is one command, and a picture is taken out of memory by its id', () => {
  expect(commands(kittyPicture(Uint8Array.of(1, 2, 3), 7, { columns: 1, rows: 1 })).map(({ keys }) => keys.m)).toEqual([
    '0',
  ]);
  expect(commands(kittyDelete(7))[0]?.keys).toEqual({ a: 'd', d: 'I', i: '7', q: '2' });
});

test('sixels are decoded to the same pixels', () => {
  const palette = [
    [0, 0, 0],
    [255, 0, 0],
    [255, 255, 255],
  ] as const;
  const [width, height] = [37, 15];
  const indices = Uint16Array.from({ length: width * height }, (_, at) => (at < 80 ? 0 : ((at * at) >> 3) % 3));
  const sixels = sixelPicture({ width, height, palette, indices });
  expect(sixels).toMatch(/^\x1bP0;1;q[^\x1b]*\x1b\\$/);
  const seen = decode(Buffer.from(sixels.replace(/^\x1bP[^q]*q/, '').replace(/\x1b\\$/, '')));
  expect([seen.width, seen.height]).toEqual([width, height]);
  const pixels = new Uint8Array(seen.data32.buffer, seen.data32.byteOffset, width * height * 4);
  const back = Array.from(indices, (_, at) => [...pixels.subarray(at * 4, at * 4 + 3)]);
  expect(back).toEqual(Array.from(indices, (place) => [...(palette[place] ?? [])]));
});

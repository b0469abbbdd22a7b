import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { drawSvg } from '../../src/picture/draw-svg.ts';
import { library } from '../../src/raster/library.ts';
import { photoTrouble } from '../../src/raster/photo-trouble.ts';
import { greysOf, indexedOf, pngOf, type Source } from '../../src/raster/raster.ts';
import { readSample } from '../picture/read-sample.ts';

const room = { width: 360, height: 216 };
let jpeg: Uint8Array;
let png: Uint8Array;
beforeAll(async () => {
  // Dark cloth, a light strip across the middle third; noise so that it does not become small.
  const noise = { type: 'gaussian', mean: 60, sigma: 20 } as const;
  const cloth = sharp({ create: { width: 900, height: 600, channels: 3, background: '#333', noise } });
  const strip = await sharp({ create: { width: 900, height: 200, channels: 3, background: '#eee' } })
    .png()
    .toBuffer();
  const made = await cloth
    .composite([{ input: strip, top: 200, left: 0 }])
    .png()
    .toBuffer();
  [jpeg, png] = [await sharp(made).jpeg().toBuffer(), made];
});

const svg = (): string =>
  drawSvg(
    readSample('lining'),
    { columns: 40, rows: 12 },
    { width: 9, height: 18 },
    { broughtOut: ['D2'], sewn: [] },
    { is: 'light', colour: '#ffffff' },
  );

describe('a photograph', () => {
  test('is shown as large as it fits, in its shape', async () => {
    for (const photo of [jpeg, png]) {
      const found = await pngOf({ photo }, room);
      expect(found).toMatchObject({ ok: true, value: { width: 324, height: 216 } });
    }
  });

  test('is brought down to the colours a terminal has', async () => {
    const found = await indexedOf({ photo: jpeg }, room, 16);
    if (!found.ok) throw new Error(found.error.message);
    const { width, height, palette, indices } = found.value;
    expect(indices).toHaveLength(width * height);
    expect(palette.length).toBeLessThanOrEqual(16);
    expect(Math.max(...indices)).toBe(palette.length - 1);
    const lightAt = (at: number): number => palette[indices[at] ?? 0]?.[1] ?? 0;
    expect(lightAt(width * Math.floor(height / 2))).toBeGreaterThan(200);
    expect(lightAt(width * 10)).toBeLessThan(140);
  });

  test('keeps its shades by dithering, where a drawing keeps its planes', async () => {
    const shades = `<svg xmlns="http://www.w3.org/2000/svg" width="360" height="216"><linearGradient id="g"><stop offset="0"/><stop offset="1" stop-color="#fff"/></linearGradient><rect width="360" height="216" fill="url(#g)"/></svg>`;
    const turns = async (source: Source): Promise<number> => {
      const found = await indexedOf(source, room, 4);
      if (!found.ok) throw new Error(found.error.message);
      const row = found.value.indices.subarray(0, found.value.width);
      return row.reduce((count, place, at) => count + (at > 0 && place !== row[at - 1] ? 1 : 0), 0);
    };
    expect(await turns({ svg: shades })).toBeLessThan(6);
    expect(await turns({ photo: await sharp(Buffer.from(shades)).png().toBuffer() })).toBeGreaterThan(30);
  });

  test('becomes a few greys, light where it is light', async () => {
    const found = await greysOf({ photo: png }, { width: 36, height: 24 });
    if (!found.ok) throw new Error(found.error.message);
    const { columns, rows, values } = found.value;
    expect([columns, rows, values.length]).toEqual([36, 24, 36 * 24]);
    expect(values[36 * 12]).toBeGreaterThan(220);
    expect(values[36 * 2]).toBeLessThan(120);
  });

  test('that is all in shadow is shown with all the contrast it bears', async () => {
    const dark = await sharp(png).linear(0.1, 20).png().toBuffer();
    const found = await greysOf({ photo: dark }, { width: 36, height: 24 });
    if (!found.ok) throw new Error(found.error.message);
    expect(Math.max(...found.value.values) - Math.min(...found.value.values)).toBeGreaterThan(200);
  });

  test('is shown although its file has bytes too many, as some cameras write', async () => {
    // Between two markers (ITU-T T.81, B.1.1): a reader goes on to the next one, and warns.
    for (const whole of [jpeg, await sharp(jpeg).resize(60).jpeg().toBuffer()]) {
      const photo = Buffer.concat([whole.subarray(0, 2), Buffer.alloc(2), whole.subarray(2)]);
      expect(await pngOf({ photo }, room)).toMatchObject({ ok: true });
    }
  });

  test('is whole with a small picture in its head and bytes behind its end, and cut short without its end', async () => {
    // A small picture in an application segment (ITU-T T.81, B.2.4.6).
    const small = await sharp(jpeg).resize(8).jpeg().toBuffer();
    const head = Buffer.concat([Buffer.from([0xff, 0xe5, 0, 0]), small]);
    head.writeUInt16BE(small.length + 2, 2);
    const photo = Buffer.concat([jpeg.subarray(0, 2), head, jpeg.subarray(2)]);
    expect(photoTrouble(Buffer.concat([photo, Buffer.alloc(9)]))).toBeUndefined();
    expect(photoTrouble(photo.subarray(0, photo.length - 2))?.rule).toBe('picture-broken');
    expect(photoTrouble(png.subarray(0, png.length - 13))?.rule).toBe('picture-broken');
  });

  test('taken with the camera on its side stands upright', async () => {
    const turned = await sharp(jpeg).withMetadata({ orientation: 6 }).toBuffer();
    expect(await pngOf({ photo: turned }, room)).toMatchObject({ ok: true, value: { width: 144, height: 216 } });
  });
});

test('the library opens nothing but drawings and photographs', async () => {
  const found = await library();
  if (!found.ok) throw new Error(found.error.message);
  for (const kind of ['webp', 'gif', 'tiff'] as const) {
    const bytes = await sharp(png).resize(8).toFormat(kind).toBuffer();
    await expect(found.value(bytes).metadata()).rejects.toThrow();
  }
});

describe('a picture that cannot be shown is one sentence', () => {
  test.each<[string, () => Promise<Uint8Array> | Uint8Array, string]>([
    ['empty', () => new Uint8Array(), 'picture-broken'],
    ['cut off', () => jpeg.subarray(0, jpeg.length / 2), 'picture-broken'],
    ['of its first bytes only', () => png.subarray(0, 9), 'picture-broken'],
    ['of another kind', () => sharp(png).webp().toBuffer(), 'picture-broken'],
    ['a drawing under a wrong name', () => new TextEncoder().encode(svg()), 'picture-broken'],
    ['huge by its head', () => claimed(8_000, 8_000), 'picture-pixels'],
    ['beyond all numbers', () => claimed(0x7fff_ffff, 0x7fff_ffff), 'picture-pixels'],
  ])('%s', async (_, photo, rule) => {
    const found = await pngOf({ photo: await photo() }, room);
    expect(found).toMatchObject({ ok: false, error: { rule } });
  });

  test('of more pixels than its stray bytes let the head tell, as the decoder finds', async () => {
    const small = await sharp(jpeg).resize(60).jpeg().toBuffer();
    // Height and width stand five bytes behind the start of frame (ITU-T T.81, B.2.2).
    const frame = small.indexOf(Buffer.from([0xff, 0xc0]));
    for (const at of [5, 7]) small.writeUInt16BE(60_000, frame + at);
    const photo = Buffer.concat([small.subarray(0, 2), Buffer.alloc(2), small.subarray(2)]);
    expect(photoTrouble(photo)).toBeUndefined();
    expect(await pngOf({ photo }, room)).toMatchObject({ ok: false, error: { rule: 'picture-broken' } });
  });

  /** A PNG whose head says it is larger than it is. */
  async function claimed(width: number, height: number): Promise<Uint8Array> {
    const bytes = Buffer.from(png);
    bytes.writeUInt32BE(width, 16);
    bytes.writeUInt32BE(height, 20);
    const { crc32 } = await import('node:zlib');
    bytes.writeUInt32BE(crc32(bytes.subarray(12, 29)), 29);
    return bytes;
  }
});

test('a drawing keeps its size, its few colours, and its heavy line', async () => {
  const found = await indexedOf({ svg: svg() }, room, 16);
  if (!found.ok) throw new Error(found.error.message);
  const { width, height, palette, indices } = found.value;
  expect([width, height]).toEqual([360, 216]);
  expect(palette.length).toBeLessThanOrEqual(16);
  const share = indices.filter((place) => (palette[place]?.[0] ?? 255) < 64).length / indices.length;
  expect(share).toBeGreaterThan(0.01);
  expect(share).toBeLessThan(0.1);
});

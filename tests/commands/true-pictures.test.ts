import sharp from 'sharp';
import { expect, test, vi } from 'vitest';
import type { StepPicture } from '../../src/app/step-pictures.ts';
import type { Digest } from '../../src/base/brand.ts';
import { truePictures } from '../../src/commands/true-pictures.ts';
import type { Graphics } from '../../src/terminal/graphics.ts';
import { readSample } from '../picture/read-sample.ts';

const graphics = (of: Partial<Graphics> = {}): Graphics => ({
  way: 'sixel',
  cell: { width: 9, height: 18 },
  most: null,
  colours: 256,
  ground: '#101014',
  ...of,
});
const room = { columns: 40, rows: 12 };
const drawing: StepPicture = {
  alt: '',
  wanted: { broughtOut: ['D1'], sewn: [] },
  seen: { is: 'drawing', digest: 'd'.repeat(64) as Digest, drawing: readSample('lining'), scale: 'to scale' },
};
const photograph = async (): Promise<StepPicture> => ({
  ...drawing,
  seen: {
    is: 'photograph',
    digest: 'f'.repeat(64) as Digest,
    greys: { columns: 1, rows: 1, values: new Uint8Array(1) },
    bytes: await sharp({ create: { width: 600, height: 300, channels: 3, background: '#a33' } })
      .png()
      .toBuffer(),
  },
});

/** Pictures for a terminal that has said what it shows. */
function shownBy(graphics: Graphics) {
  const pictures = truePictures();
  pictures.showBy(graphics);
  return pictures;
}

/** Asks until it is made. */
async function made(pictures: ReturnType<typeof truePictures>, picture: StepPicture, at = room) {
  let found = pictures.find(picture, at);
  await vi.waitFor(() => {
    found = pictures.find(picture, at);
    expect(found).not.toBeNull();
  }, 5000);
  if (!found) throw new Error('not made');
  return found;
}

/** Width and height in pixels that a sixel picture says it has. */
const sizeOf = (bytes: string): string | undefined => /^\x1bP0;1;q"1;1;(\d+;\d+)/.exec(bytes)?.[1];

test('a picture is made once for its room, and told of; while it is made there is none', async () => {
  const pictures = shownBy(graphics());
  let told = 0;
  const stop = pictures.subscribe(() => {
    told++;
  });
  expect(pictures.find(drawing, room)).toBeNull();
  const first = await made(pictures, drawing);
  const { version } = pictures;
  expect([told, version()]).toEqual([1, 2]);
  expect(pictures.find({ ...drawing }, { ...room })).toBe(first);
  expect(await made(pictures, { ...drawing, wanted: { broughtOut: ['D2'], sewn: [] } })).not.toEqual(first);
  stop();
  expect(first.way === 'sixel' && sizeOf(first.bytes)).toBe('360;216');
});

test('the picture that is asked for again and again stays, however many others are made', async () => {
  const pictures = shownBy(graphics());
  const first = await made(pictures, drawing);
  for (let sewn = 0; sewn < 12; sewn++) {
    await made(pictures, { ...drawing, wanted: { broughtOut: [], sewn: [`S${sewn}`] } }, { columns: 4, rows: 2 });
    expect(pictures.find(drawing, room)).toBe(first);
  }
});

test('a drawing that cannot be drawn leaves its place to characters', async () => {
  const pictures = shownBy(graphics());
  await vi.waitFor(() => expect(pictures.version()).toBe(1));
  if (drawing.seen?.is !== 'drawing') throw new Error('no drawing');
  const parts = [{ path: 'no path' }] as never;
  const wrong = { ...drawing, seen: { ...drawing.seen, drawing: { ...drawing.seen.drawing, parts } } };
  expect(pictures.find(wrong, room)).toBeNull();
  await vi.waitFor(() => expect(pictures.version()).toBe(2));
  expect(pictures.find(wrong, room)).toBeNull();
});

test('a terminal of the Kitty protocol gets a PNG in its cells, each picture under an id of its own', async () => {
  const pictures = shownBy(graphics({ way: 'kitty' }));
  const first = await made(pictures, drawing);
  expect(first.bytes).toMatch(/^\x1b_Ga=T,f=100,i=1000000001,p=1,c=40,r=12,/);
  const second = await made(pictures, await photograph());
  // Twice as wide as high: 360 by 180 pixels.
  expect(second.bytes).toMatch(/^\x1b_Ga=T,f=100,i=1000000002,p=1,c=40,r=10,/);
});

test('a picture is no larger than the terminal takes', async () => {
  const pictures = shownBy(graphics({ most: { width: 180, height: 1000 } }));
  const { bytes } = await made(pictures, drawing);
  expect(sizeOf(bytes)).toBe('180;108');
});

test('a terminal of characters gets none, and neither does what cannot be shown', async () => {
  const pictures = truePictures();
  expect(pictures.find(drawing, room)).toBeNull();
  pictures.showBy(null);
  expect(pictures.find(drawing, room)).toBeNull();
  expect(pictures.version()).toBe(0);
  const able = shownBy(graphics());
  expect(able.version()).toBe(1);
  const { seen } = await photograph();
  if (seen?.is !== 'photograph') throw new Error('no photograph');
  const torn = { ...drawing, seen: { ...seen, bytes: seen.bytes.subarray(0, 20) } };
  expect(able.find(torn, room)).toBeNull();
  await vi.waitFor(() => expect(able.version()).toBe(2));
  expect(able.find(torn, room)).toBeNull();
  expect(able.find({ ...drawing, seen: undefined }, room)).toBeNull();
  expect(able.version()).toBe(2);
});

test('lines are light on a dark ground, and dark on a light one', async () => {
  const found = async (ground: string | null): Promise<string> =>
    (await made(shownBy(graphics({ ground })), drawing)).bytes;
  // Sixel colours in hundredths: the ground is the first of the palette.
  expect(await found('#ffffff')).toMatch(/#0;2;100;100;100/);
  expect(await found('#ffffff')).toMatch(/;2;0;0;0/);
  expect(await found(null)).toMatch(/#0;2;0;0;0/);
  expect(await found(null)).toMatch(/;2;100;100;100/);
});

test('while a terminal has not said what it shows there is none; a picture made for other cells is made again', async () => {
  const pictures = shownBy(graphics());
  const first = await made(pictures, drawing);
  pictures.showBy(null);
  expect(pictures.find(drawing, room)).toBeNull();
  pictures.showBy(graphics());
  expect(pictures.find(drawing, room)).toBe(first);
  pictures.showBy(graphics({ cell: { width: 5, height: 10 } }));
  expect(pictures.find(drawing, room)).toBeNull();
  expect(sizeOf((await made(pictures, drawing)).bytes)).toBe('200;120');
});

test('what is still being made for other cells does not come in late', async () => {
  const pictures = shownBy(graphics());
  pictures.find(drawing, room);
  pictures.showBy(graphics({ cell: { width: 5, height: 10 } }));
  await vi.waitFor(() => expect(pictures.version()).toBe(3), 5000);
  expect(pictures.find(drawing, room)).toBeNull();
});

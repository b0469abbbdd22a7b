import type { Sharp } from 'sharp';
import { ok, type Result, refuse } from '../base/result.ts';
import { library } from './library.ts';

/** What pixels are made of: a drawing of our own, or the bytes of a photograph. */
export type Source = { readonly svg: string } | { readonly photo: Uint8Array };

/** In pixels. */
export interface Room {
  readonly width: number;
  readonly height: number;
}

/** A whole PNG file. */
export interface Png extends Room {
  readonly bytes: Uint8Array;
}

/** The picture as a PNG that fits the room. */
export function pngOf(source: Source, room: Room): Promise<Result<Png>> {
  return attempt(source, async (open) => {
    const { data, info } = await fitted(open, room).png().toBuffer({ resolveWithObject: true });
    return { bytes: data, width: info.width, height: info.height };
  });
}

/** Pixels of few colours: for each, from the top left, its place in the palette. */
export interface Indexed extends Room {
  readonly palette: readonly (readonly [number, number, number])[];
  readonly indices: Uint16Array;
}

/** The picture in at most so many colours (2 to 256), to fit the room. A photograph is dithered, a drawing stays clean. */
export function indexedOf(source: Source, room: Room, colours: number): Promise<Result<Indexed>> {
  return attempt(source, async (open, sharp) => {
    const few = await fitted(open, room)
      .png({ palette: true, colours, dither: 'photo' in source ? 1 : 0 })
      .toBuffer();
    const { data, info } = await sharp(few)
      .removeAlpha()
      .toColourspace('srgb')
      .raw()
      .toBuffer({ resolveWithObject: true });
    return { width: info.width, height: info.height, ...byPalette(data) };
  });
}

/** How light a picture is, from 0 to 255, row by row. */
export interface Greys {
  readonly columns: number;
  readonly rows: number;
  readonly values: Uint8Array;
}

/** The picture as so few greys that each can be a part of a cell; with as much contrast as it will bear. */
export function greysOf(source: Source, room: Room): Promise<Result<Greys>> {
  return attempt(source, async (open) => {
    const { data, info } = await fitted(open, room)
      .removeAlpha()
      .toColourspace('b-w')
      .normalise()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const values = data.filter((_, at) => at % info.channels === 0);
    return { columns: info.width, rows: info.height, values };
  });
}

const fitted = (open: Sharp, { width, height }: Room): Sharp =>
  open.flatten({ background: '#ffffff' }).resize({ width, height, fit: 'inside' });

/** A camera makes no more; decoding as many takes a second and some 200 MB. */
const MOST_PIXELS = 50_000_000;
const SECONDS = 10;

/** Every failure is an answer in one sentence: a picture stops nobody. */
async function attempt<T>(
  source: Source,
  work: (open: Sharp, sharp: typeof import('sharp').default) => Promise<T>,
): Promise<Result<T>> {
  const found = await library();
  if (!found.ok) return found;
  const bytes = 'svg' in source ? new TextEncoder().encode(source.svg) : source.photo;
  if ('photo' in source && kindOf(bytes) === 'other') return BROKEN;
  try {
    // The head of the file tells its size before anything is decoded: a small file can claim to be huge.
    const open = found.value(bytes, { failOn: 'truncated', limitInputPixels: MOST_PIXELS });
    return ok(await work(open.autoOrient().timeout({ seconds: SECONDS }), found.value));
  } catch (error) {
    return error instanceof Error && /pixel limit/i.test(error.message) ? TOO_LARGE : BROKEN;
  }
}

const BROKEN = refuse('picture-broken', 'This picture cannot be read: save it again as JPEG or PNG.');
const TOO_LARGE = refuse('picture-pixels', 'This picture has more than 50 million pixels: make it smaller.');

/** By the first bytes of the file, whatever its name says. */
function kindOf(bytes: Uint8Array): 'jpeg' | 'png' | 'other' {
  const begins = (...signs: readonly number[]): boolean => signs.every((sign, at) => bytes[at] === sign);
  if (begins(0xff, 0xd8, 0xff)) return 'jpeg';
  return begins(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a) ? 'png' : 'other';
}

/** The few colours that occur, in the order of their first pixel. */
function byPalette(rgb: Uint8Array): Pick<Indexed, 'palette' | 'indices'> {
  const palette: [number, number, number][] = [];
  const places = new Map<number, number>();
  const indices = new Uint16Array(rgb.length / 3);
  for (let at = 0; at < indices.length; at++) {
    const [red = 0, green = 0, blue = 0] = rgb.subarray(at * 3, at * 3 + 3);
    const colour = (red << 16) | (green << 8) | blue;
    let place = places.get(colour);
    if (place === undefined) {
      place = palette.length;
      palette.push([red, green, blue]);
      places.set(colour, place);
    }
    indices[at] = place;
  }
  return { palette, indices };
}

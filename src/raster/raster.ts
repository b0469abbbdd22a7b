import type { Sharp } from 'sharp';
import { ok, type Result } from '../base/result.ts';
import { library } from './library.ts';
import { BROKEN, MOST_PIXELS, photoTrouble } from './photo-trouble.ts';

/** What pixels are made of: a drawing of our own, or the bytes of a photograph. */
export type Source = { readonly svg: string } | { readonly photo: Uint8Array };

/** Width and height in pixels. */
export interface Pixels {
  readonly width: number;
  readonly height: number;
}

/** A whole PNG file. */
export interface Png extends Pixels {
  readonly bytes: Uint8Array;
}

/** The picture as a PNG that fits the room. */
export function pngOf(source: Source, room: Pixels): Promise<Result<Png>> {
  return attempt(source, async (open) => {
    const { data, info } = await fitted(open, room).png().toBuffer({ resolveWithObject: true });
    return { bytes: data, width: info.width, height: info.height };
  });
}

/** Pixels of few colours: for each, from the top left, its place in the palette. */
export interface Indexed extends Pixels {
  readonly palette: readonly (readonly [number, number, number])[];
  readonly indices: Uint16Array;
}

/** The picture in at most so many colours (2 to 256), to fit the room. A photograph is dithered, a drawing stays clean. */
export async function indexedOf(source: Source, room: Pixels, colours: number): Promise<Result<Indexed>> {
  const raw = await attempt(source, async (open, sharp) => {
    const few = await fitted(open, room)
      .png({ palette: true, colours, dither: 'photo' in source ? 1 : 0 })
      .toBuffer();
    return sharp(few).removeAlpha().toColourspace('srgb').raw().toBuffer({ resolveWithObject: true });
  });
  if (!raw.ok) return raw;
  const { data, info } = raw.value;
  return ok({ width: info.width, height: info.height, ...byPalette(data) });
}

/** How light a picture is, from 0 to 255, row by row. */
export interface Greys {
  readonly columns: number;
  readonly rows: number;
  readonly values: Uint8Array;
}

/** The picture as so few greys that each can be a part of a cell; with as much contrast as it will bear. */
export async function greysOf(source: Source, room: Pixels): Promise<Result<Greys>> {
  const raw = await attempt(source, (open) =>
    fitted(open, room).removeAlpha().toColourspace('b-w').normalise().raw().toBuffer({ resolveWithObject: true }),
  );
  if (!raw.ok) return raw;
  const { data, info } = raw.value;
  return ok({ columns: info.width, rows: info.height, values: data.filter((_, at) => at % info.channels === 0) });
}

const fitted = (open: Sharp, { width, height }: Pixels): Sharp =>
  open.flatten({ background: '#ffffff' }).resize({ width, height, fit: 'inside' });

const SECONDS = 10;

/** Whatever the library cannot do with the bytes is an answer in one sentence: a picture stops nobody. */
async function attempt<T>(
  source: Source,
  work: (open: Sharp, sharp: typeof import('sharp').default) => Promise<T>,
): Promise<Result<T>> {
  const found = await library();
  if (!found.ok) return found;
  const bytes = 'svg' in source ? new TextEncoder().encode(source.svg) : source.photo;
  const trouble = 'photo' in source ? photoTrouble(bytes) : undefined;
  if (trouble) return { ok: false, error: trouble };
  try {
    const open = found.value(bytes, { failOn: 'truncated', limitInputPixels: MOST_PIXELS });
    return ok(await work(open.autoOrient().timeout({ seconds: SECONDS }), found.value));
  } catch {
    return BROKEN;
  }
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

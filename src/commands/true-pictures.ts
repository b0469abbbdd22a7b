import type { StepPicture } from '../app/step-pictures.ts';
import { remember } from '../base/remember.ts';
import { drawSvg, type Paper } from '../picture/draw-svg.ts';
import { pictureKey } from '../picture/picture-key.ts';
import type { Pixels, Source } from '../raster/raster.ts';
import type { TruePictures } from '../screens/true-pictures.ts';
import type { Graphics } from '../terminal/graphics.ts';
import { kittyPicture } from '../terminal/kitty.ts';
import type { SentPicture } from '../terminal/placed-picture.ts';
import type { Room } from '../widgets/page.ts';

interface MadePictures extends TruePictures {
  /** Says what the terminal shows from now on; null is characters only. */
  readonly showBy: (graphics: Graphics | null) => void;
}

/** Pictures for a terminal; none before `showBy` has told what it shows. */
export function truePictures(): MadePictures {
  let can: Graphics | null = null;
  let version = 0;
  let id = FIRST_ID;
  const watchers = new Set<() => void>();
  const made = remember<Making>(MOST);
  const changed = (): void => {
    version++;
    for (const fn of [...watchers]) fn();
  };

  /** What cannot be made in pixels is left to characters. */
  function begin(picture: StepPicture, room: Room, at: Graphics): Making {
    const making: Making = { sent: null };
    void make(picture, room, at, ++id)
      .catch(() => null)
      .then((sent) => {
        making.sent = sent;
        changed();
      });
    return making;
  }

  return {
    showBy(graphics) {
      if (graphics === can) return;
      can = graphics;
      changed();
    },
    find(picture, room) {
      const { seen, wanted } = picture;
      if (can === null || !seen || seen.is === 'unshown' || room.columns < 1 || room.rows < 1) return null;
      const at = can;
      const key = `${pictureKey(seen, room, wanted)} ${JSON.stringify(at)}`;
      return made(key, () => begin(picture, room, at)).sent;
    },
    subscribe(fn) {
      watchers.add(fn);
      return () => void watchers.delete(fn);
    },
    version: () => version,
  };
}

/** Other programs count the pictures they left in this terminal from 1: none of them is to be replaced or taken away. */
const FIRST_ID = 1_000_000_000;

/** Pictures kept: those of a step and of the one before, at a size or two. */
const MOST = 8;

/** Grey letters and lines need few shades; more would make it longer. */
const SHADES = 16;

/** A picture, as soon as it is made. */
interface Making {
  sent: SentPicture | null;
}

async function make(picture: StepPicture, room: Room, at: Graphics, id: number): Promise<SentPicture | null> {
  const cell = cellFor(room, at);
  const source = sourceOf(picture, room, cell, at);
  if (source === null) return null;
  const { indexedOf, pngOf } = await import('../raster/raster.ts');
  const pixels = { width: Math.floor(room.columns * cell.width), height: Math.floor(room.rows * cell.height) };
  if (at.way === 'kitty') {
    const png = await pngOf(source, pixels);
    if (!png.ok) return null;
    const { bytes, width, height } = png.value;
    const cells = { columns: Math.ceil(width / cell.width), rows: Math.ceil(height / cell.height) };
    return { way: 'kitty', id, bytes: kittyPicture(bytes, id, cells) };
  }
  const { sixelPicture } = await import('../terminal/sixel.ts');
  const colours = 'photo' in source ? at.colours : Math.min(SHADES, at.colours);
  const indexed = await indexedOf(source, pixels, colours);
  return indexed.ok ? { way: 'sixel', bytes: sixelPicture(indexed.value) } : null;
}

function sourceOf({ seen, wanted }: StepPicture, room: Room, cell: Pixels, at: Graphics): Source | null {
  if (seen?.is === 'drawing') return { svg: drawSvg(seen.drawing, room, cell, wanted, paperOf(at)) };
  return seen?.is === 'photograph' ? { photo: seen.bytes } : null;
}

/** Cells as large as they are, or as small as they must be made for all of them to be no more than the terminal takes. */
function cellFor({ columns, rows }: Room, { cell, most }: Graphics): Pixels {
  const scale = Math.min(
    1,
    (most?.width ?? Infinity) / (columns * cell.width),
    (most?.height ?? Infinity) / (rows * cell.height),
  );
  return { width: cell.width * scale, height: cell.height * scale };
}

/** Lines stand out from the colour behind the text; where the terminal does not tell it, from black. */
function paperOf({ ground }: Graphics): Paper {
  const colour = ground ?? '#000000';
  const [red = 0, green = 0, blue = 0] = (colour.slice(1).match(/../g) ?? []).map((pair) => Number.parseInt(pair, 16));
  // Luma by ITU-R BT.601, of 255.
  return { is: red * 0.299 + green * 0.587 + blue * 0.114 > 127 ? 'light' : 'dark', colour };
}

import { refuse } from '../base/result.ts';
import { isToScale, readDrawing } from '../drawing/read-drawing.ts';
import type { SeenPicture } from '../picture/seen-picture.ts';
import { greysOf } from '../raster/raster.ts';
import type { PictureBytes, PicturesOf } from './pictures-of.ts';

/** Reads pictures, given by their addresses, for whatever the terminal can show. One that cannot be shown says so in its place. */
export async function seePictures(
  pictures: Awaited<ReturnType<PicturesOf>>,
): Promise<ReadonlyMap<string, SeenPicture>> {
  const seen = new Map<string, SeenPicture>();
  for (const [address, found] of pictures)
    seen.set(address, found.ok ? await seePicture(address, found.value) : { is: 'unshown', why: found.error });
  return seen;
}

async function seePicture(address: string, { bytes, digest }: PictureBytes): Promise<SeenPicture> {
  if (/\.svg$/i.test(address)) {
    const read = readDrawing(new TextDecoder().decode(bytes), address);
    const isEmpty = read.drawing.parts.length === 0 || read.drawing.box.width <= 0 || read.drawing.box.height <= 0;
    return isEmpty
      ? unread(address)
      : { is: 'drawing', digest, drawing: read.drawing, scale: isToScale(read) ? 'to scale' : 'not to scale' };
  }
  const greys = await greysOf({ photo: bytes }, GREYS);
  return greys.ok ? { is: 'photograph', digest, bytes, greys: greys.value } : { is: 'unshown', why: greys.error };
}

/** Enough for the largest screen of characters, where a cell is two greys high. */
const GREYS = { width: 200, height: 150 };

function unread(address: string): SeenPicture {
  const refused = refuse(
    'drawing-unread',
    'Nothing of the drawing {address} can be shown: `walkfoot proofread` tells why.',
    { address },
  );
  return { is: 'unshown', why: refused.error };
}

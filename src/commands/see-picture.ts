import { refuse } from '../base/result.ts';
import { isDrawing } from '../drawing/measurable.ts';
import { isToScale, readDrawing } from '../drawing/read-drawing.ts';
import type { SeenPicture } from '../picture/seen-picture.ts';
import { greysOf } from '../raster/raster.ts';
import type { PictureBytes } from './find-picture.ts';

/** Reads a picture for whatever the terminal can show; one that cannot be shown says why. */
export async function seePicture(address: string, { bytes, digest }: PictureBytes): Promise<SeenPicture> {
  if (isDrawing(address)) {
    const read = readDrawing(new TextDecoder().decode(bytes), address);
    const { parts, box } = read.drawing;
    return parts.length === 0 || box.width <= 0 || box.height <= 0
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

import { FINALIZER, introducer, sixelEncodeIndexed } from 'sixel/lib/SixelEncoder.js';
import type { Indexed } from '../raster/raster.ts';

/** The picture as sixels, drawn from where the cursor stands. Loads the encoder, so only whoever shows a picture imports this. */
export const sixelPicture = ({ width, height, palette, indices }: Indexed): string =>
  introducer(1) +
  sixelEncodeIndexed(
    indices,
    width,
    height,
    palette.map(([red, green, blue]): [number, number, number] => [red, green, blue]),
  ) +
  FINALIZER;

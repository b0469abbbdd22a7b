import type { Digest } from '../base/brand.ts';
import type { Refusal } from '../base/result.ts';
import type { Drawing } from '../drawing/drawing.ts';
import type { Greys } from '../raster/raster.ts';
import type { Scale } from './about-part.ts';

/** A picture of a procedure as far as it could be read, whatever the terminal can show of it. */
export type SeenPicture =
  | { readonly is: 'drawing'; readonly digest: Digest; readonly drawing: Drawing; readonly scale: Scale }
  | { readonly is: 'photograph'; readonly digest: Digest; readonly bytes: Uint8Array; readonly greys: Greys }
  /** One sentence that stands in its place. */
  | { readonly is: 'unshown'; readonly why: Refusal };

import { imageSize } from 'image-size';
import { type Refusal, refuse } from '../base/result.ts';
import { isCutShort } from './is-cut-short.ts';

/**
 * Why a photograph cannot be shown, by the head and the end of its file, whatever its name says; `undefined` when it is worth decoding,
 * which may still fail. A small file can claim to be huge.
 */
export function photoTrouble(bytes: Uint8Array): Refusal | undefined {
  const head = headOf(bytes);
  if (head === undefined) return BROKEN.error;
  if (head.pixels > MOST_PIXELS) return TOO_LARGE.error;
  return isCutShort(bytes, head.type) ? BROKEN.error : undefined;
}

/** A camera makes no more; decoding as many takes a second and some 200 MB. */
export const MOST_PIXELS = 50_000_000;

export const BROKEN = refuse('picture-broken', 'This picture cannot be read; save it again as JPEG or PNG.');
const TOO_LARGE = refuse('picture-pixels', 'This picture has more than 50 million pixels; make it smaller.');

/** What the head says. Of a JPEG with stray bytes in its head it is the decoder that finds out how large it is, and refuses too much. */
function headOf(bytes: Uint8Array): { readonly type: 'jpg' | 'png'; readonly pixels: number } | undefined {
  try {
    const { type, width, height } = imageSize(bytes);
    return type === 'jpg' || type === 'png' ? { type, pixels: width * height } : undefined;
  } catch {
    return bytes[0] === 0xff && bytes[1] === 0xd8 ? { type: 'jpg', pixels: 0 } : undefined;
  }
}

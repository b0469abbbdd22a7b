import { imageSize } from 'image-size';
import { type Refusal, refuse } from '../base/result.ts';
import { isCutShort } from './is-cut-short.ts';

/**
 * Why a photograph cannot be shown, by the head and the end of its file, whatever its name says; `undefined` when it is worth decoding,
 * which may still fail. A small file can claim to be huge.
 */
export function photoTrouble(bytes: Uint8Array): Refusal | undefined {
  try {
    const { type, width, height } = imageSize(bytes);
    if (type !== 'jpg' && type !== 'png') return BROKEN.error;
    if (width * height > MOST_PIXELS) return TOO_LARGE.error;
    return isCutShort(bytes, type) ? BROKEN.error : undefined;
  } catch {
    return BROKEN.error;
  }
}

/** A camera makes no more; decoding as many takes a second and some 200 MB. */
export const MOST_PIXELS = 50_000_000;

export const BROKEN = refuse('picture-broken', 'This picture cannot be read: save it again as JPEG or PNG.');
const TOO_LARGE = refuse('picture-pixels', 'This picture has more than 50 million pixels: make it smaller.');

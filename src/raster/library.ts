import type sharp from 'sharp';
import { ok, type Result, refuse } from '../base/result.ts';

type Library = typeof sharp;

let loading: Promise<Result<Library>> | undefined;

/**
 * The library that decodes and draws, loaded when the first picture asks for it: that takes some 50 ms, and the first frame shows
 * none. It may open nothing but SVG, JPEG and PNG, and keeps nothing. On a machine for which it was not made there are no true pictures.
 */
export function library(): Promise<Result<Library>> {
  loading ??= load();
  return loading;
}

async function load(): Promise<Result<Library>> {
  try {
    const { default: made } = await import('sharp');
    made.cache(false);
    made.concurrency(1);
    made.block({ operation: ['VipsForeignLoad'] });
    made.unblock({ operation: ['VipsForeignLoadSvgBuffer', 'VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer'] });
    return ok(made);
  } catch {
    return refuse('picture-library', 'Photographs cannot be shown on this machine; go on without.');
  }
}

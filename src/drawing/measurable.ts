import type { Drawing } from './drawing.ts';
import { isToScale, readDrawing } from './read-drawing.ts';

interface Measurable {
  /** The drawings that can be measured, by their addresses. */
  readonly drawings: ReadonlyMap<string, Drawing>;
  /** Those that can't, and why; photographs are none. */
  readonly others: readonly { readonly address: string; readonly why: string }[];
}

/** What can be measured of a procedure's pictures, given by their addresses. */
export function measurable(pictures: Iterable<readonly [address: string, bytes: Uint8Array]>): Measurable {
  const drawings = new Map<string, Drawing>();
  const others: { address: string; why: string }[] = [];
  for (const [address, bytes] of pictures) {
    if (!isDrawing(address)) continue;
    const read = readDrawing(new TextDecoder().decode(bytes), address);
    if (isToScale(read)) drawings.set(address, read.drawing);
    else others.push({ address, why: read.findings[0]?.message ?? '' });
  }
  return { drawings, others };
}

/** Whether a picture is a drawing, by the name of its file. */
export const isDrawing = (address: string): boolean => address.toLowerCase().endsWith('.svg');

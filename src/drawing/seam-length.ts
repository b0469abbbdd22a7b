import type { Drawing } from './drawing.ts';
import { lengthOf } from './length.ts';
import { partsNamed } from './named-part.ts';

/** Length in mm of the seam with this id, or of all seams in the group with it; undefined when the drawing has none. */
export function seamLength(drawing: Drawing, id: string): number | undefined {
  const seams = partsNamed(drawing, id).filter(({ kind }) => kind === 'seam');
  return seams.length === 0 ? undefined : seams.reduce((sum, { path }) => sum + lengthOf(path), 0);
}

import type { Drawing } from './drawing.ts';
import { lengthOf } from './length.ts';

/** Length in mm of the seam with this id, or of all seams in the group with it; undefined when the drawing has none. */
export function seamLength({ parts }: Drawing, id: string): number | undefined {
  const seams = parts.filter((part) => part.kind === 'seam' && (part.id === id || part.groups.includes(id)));
  return seams.length === 0 ? undefined : seams.reduce((sum, { path }) => sum + lengthOf(path), 0);
}

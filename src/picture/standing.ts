import type { Drawing, Part } from '../drawing/drawing.ts';
import { isNamed } from '../drawing/named-part.ts';

/** What a picture is to tell of a drawing: ids of parts or of groups, as a picture's fragment and the seams of a step name them. */
export interface Wanted {
  readonly broughtOut: readonly string[];
  /** Seams that are sewn already. */
  readonly sewn: readonly string[];
}

/** How a part stands in the picture. What is brought out and sewn already is both. */
export type Standing = 'brought out' | 'brought out, sewn' | 'sewn' | 'around';

export function standingOf(part: Part, { broughtOut, sewn }: Wanted): Standing {
  const isSewn = part.kind === 'seam' && sewn.some((name) => isNamed(part, name));
  if (broughtOut.some((name) => isNamed(part, name))) return isSewn ? 'brought out, sewn' : 'brought out';
  return isSewn ? 'sewn' : 'around';
}

/** Those of the names that the drawing has parts for. */
export const namesIn = ({ parts }: Drawing, names: readonly string[]): readonly string[] =>
  names.filter((name) => parts.some((part) => isNamed(part, name)));

import type { Drawing, Label, Part } from '../drawing/drawing.ts';

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

/** Whether a name means this part: its own, or that of a group it stands in. */
const isNamed = ({ id, groups }: Part, name: string): boolean => id === name || groups.includes(name);

/** What a piece is called: by its own id, or else by the group it was put in. */
export const nameOf = ({ id, groups }: Part): string | undefined => id ?? groups.at(-1);

/** Labels of the drawing that belong to a name: they are the name, or begin with it, as `BX, front and sides` does. */
export function labelsOf(drawing: Drawing, name: string): readonly Label[] {
  const plain = sameDashes(name);
  return drawing.labels.filter(({ words }) => {
    const said = sameDashes(words);
    return said === plain || (said.startsWith(plain) && /^[\s,:]/.test(said.slice(plain.length)));
  });
}

const sameDashes = (words: string): string => words.replace(/[\u2010-\u2015\u2212]/g, '-');

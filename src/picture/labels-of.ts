import type { Drawing, Label } from '../drawing/drawing.ts';

/** Labels of the drawing that belong to a name: they are the name, or begin with it, as `BX, front and sides` does. */
export const labelsOf = ({ labels }: Drawing, name: string): readonly Label[] =>
  labels.filter((label) => namesIn(label).includes(sameDashes(name)));

/** Finds the first of some things that a label names, by the names they have. */
export function byLabel<Thing>(
  things: readonly (readonly [name: string, Thing])[],
): (label: Label) => Thing | undefined {
  const named = new Map(things.toReversed().map(([name, thing]) => [sameDashes(name), thing]));
  return (label) => named.get(namesIn(label).find((name) => named.has(name)) ?? '');
}

/** All that a label could name: what it says, and what stands before a space, a comma or a colon in it. */
function namesIn({ words }: Label): readonly string[] {
  const said = sameDashes(words);
  return [said, ...Array.from(said.matchAll(/[\s,:]/g), ({ index }) => said.slice(0, index))];
}

const sameDashes = (words: string): string => words.replace(/[\u2010-\u2015\u2212]/g, '-');

import type { Part } from './drawing.ts';

const KINDS = ['piece', 'edge', 'mark', 'seam', 'notch'] as const;

interface KindRead {
  /** `null` when the class names none. */
  readonly kind: Part['kind'] | null;
  readonly wrong: { readonly message: string; readonly mend: string } | null;
}

/** What the words of a `class` make of a part. Other words of it are somebody else's. */
export function kindOf(classes: string): KindRead {
  const words = classes.split(/\s+/).filter((word) => word !== '');
  const kinds = KINDS.filter((kind) => words.includes(kind));
  const [kind = null, second] = kinds;
  if (second !== undefined) {
    const message = `A part is one thing, and this is said to be ${kinds.join(' and ')}.`;
    return { kind, wrong: { message, mend: 'Keep one of them, and draw the other as a part of its own.' } };
  }
  const near = kind === null ? words.map(nearKind).find((found) => found !== undefined) : undefined;
  if (near === undefined) return { kind, wrong: null };
  const message = `This is not quite ${near}, so the part would be taken for a line without a meaning.`;
  return { kind: near, wrong: { message, mend: `Write class="${near}".` } };
}

const nearKind = (word: string): (typeof KINDS)[number] | undefined =>
  KINDS.find((kind) => [kind, `${kind}s`, `${kind}es`].includes(word.toLowerCase()));

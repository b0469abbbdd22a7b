import type { Span } from './inline-spans.ts';

export interface Blanks {
  readonly blanks: readonly Span[];
  /** The first thing that looks like a blank and is none. */
  readonly malformed: Span | null;
}

/**
 * Finds the blanks of a point, four or more underscores each, in text whose code spans are blanked out. Some editors write
 * `\_\_\_\_` for a blank, which prints as one and is none.
 */
export function findBlanks(text: string): Blanks {
  const blanks: Span[] = [];
  let malformed: Span | null = null;
  for (const { 0: run, index } of text.matchAll(BLANK_LIKE)) {
    if (run.startsWith('\\') && run.length === 2) continue;
    const pieces = Array.from(run.matchAll(/[^ \t]+/g), (piece) => ({
      start: index + piece.index,
      end: index + piece.index + piece[0].length,
    }));
    const odd = pieces.find(({ start, end }) => !/^_{4,}$/.test(text.slice(start, end)));
    if (odd === undefined) for (const piece of pieces) blanks.push(piece);
    else if (!isBoldMark(text, { start: index, end: index + run.length })) malformed ??= odd;
  }
  return { blanks, malformed };
}

const BLANK_LIKE = /(?:\\_){2,}|\\[\s\S]|_(?:[ \t]?_)+|(?<=\s)_(?=\s|$)|＿+|‗+/g;

/** `__words__` is bold in Markdown; the two rows stand tight against a letter or digit, one of each on either side. */
function isBoldMark(text: string, { start, end }: Span): boolean {
  if (end - start !== 2 || text.slice(start, end) !== '__') return false;
  const letter = /[\p{L}\p{N}]/u;
  const opens = letter.test(text.charAt(end)) && !/[\p{L}\p{N}_]/u.test(text.charAt(start - 1));
  if (opens) return /^[^_]*[^_\s]__(?![\p{L}\p{N}_])/u.test(text.slice(end, end + 200));
  return (
    /(?:^|[^\p{L}\p{N}_])__[\p{L}\p{N}][^_]*$/u.test(text.slice(Math.max(0, start - 200), start)) &&
    !/\s/.test(text.charAt(start - 1))
  );
}

import { columns, graphemes } from '../base/columns.ts';
import { bigLetters } from './big-letters.ts';
import { type Row, span } from './row.ts';
import { wrapRow } from './wrap-row.ts';

/**
 * Words for a screen further away, at most `width` columns and, where they can be made to fit, at most `height` rows. The largest way
 * that fits is taken: letters six rows high, else three rows, else letters spaced out with empty rows between, else ordinary bright
 * rows, which alone may be more than `height`, since no word is ever left out.
 */
export function big(text: string, width: number, height: number): readonly Row[] {
  const words = text.split(/\s+/).filter((word) => word !== '');
  const ways = [
    () => drawn(words, width, sixRows, ['']),
    () => drawn(words, width, threeRows, ['']),
    () => drawn(words, width, threeRows, []),
    () => spaced(words, width),
  ];
  for (const layOut of ways) {
    const lines = layOut();
    if (lines && lines.length <= height) return lines.map((line) => [span(line, 'bright')]);
  }
  return wrapRow([span(words.join(' '), 'bright')], width);
}

/** Spaced out, a line takes at most this many columns: some thirty letters, so that the eye finds the next line. */
const SPACED_WIDTH = 60;

/** Six rows of squares, `#` for ink. */
type Squares = readonly string[];
const SQUARES = 6;

/** How squares become rows of the terminal. */
interface Pen {
  readonly columns: number;
  readonly draw: (line: Squares) => readonly string[];
}

/** A square is two columns and a row. */
const sixRows: Pen = {
  columns: 2,
  draw: (line) => line.map((row) => Array.from(row, (square) => (square === '#' ? '██' : '  ')).join('')),
};

/** A square is a column and half a row. */
const threeRows: Pen = {
  columns: 1,
  draw: (line) =>
    [0, 2, 4].map((at) =>
      Array.from(line[at] ?? '', (upper, x) => HALVES[upper + (line[at + 1]?.[x] ?? '.')] ?? ' ').join(''),
    ),
};

const HALVES: Readonly<Record<string, string>> = { '#.': '▀', '.#': '▄', '##': '█' };

/** The words in drawn letters, `between` each two lines; nothing when a character has no drawing or a word no room. */
function drawn(
  words: readonly string[],
  width: number,
  pen: Pen,
  between: readonly string[],
): readonly string[] | undefined {
  if (words.some((word) => graphemes(word).some((letter) => bigLetters[letter] === undefined))) return undefined;
  const lines = packed(words.map(drawnWord), Math.floor(width / pen.columns), '...');
  const rows = lines?.map((line) => pen.draw(line).map((row) => row.trimEnd()));
  const all = rows?.flatMap((line, at) => (at === 0 ? line : [...between, ...line]));
  return all?.at(-1) === '' ? all.slice(0, -1) : all;
}

const drawnWord = (word: string): Squares =>
  joined(
    graphemes(word).map((letter) => squaresOf(bigLetters[letter] ?? '')),
    '.',
  );

function squaresOf(drawing: string): Squares {
  const rows = drawing.split(' ');
  return Array.from({ length: SQUARES }, (_, row) => rows[row] ?? '.'.repeat(rows[0]?.length ?? 0));
}

const joined = (parts: readonly Squares[], gap: string): Squares =>
  Array.from({ length: SQUARES }, (_, row) => parts.map((part) => part[row] ?? '').join(gap));

/** Words put side by side into lines, each line again rows of squares; nothing when one word is wider than `width`. */
function packed(words: readonly Squares[], width: number, gap: string): readonly Squares[] | undefined {
  const lines: Squares[] = [];
  for (const word of words) {
    const last = lines.at(-1);
    const longer = last && joined([last, word], gap);
    if ((word[0]?.length ?? 0) > width) return undefined;
    if (longer && (longer[0]?.length ?? 0) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/** Letters a space apart, words three, an empty row between lines; nothing when one word has no room. */
function spaced(words: readonly string[], width: number): readonly string[] | undefined {
  const lines: string[] = [];
  for (const word of words.map((letters) => graphemes(letters).join(' '))) {
    const last = lines.at(-1);
    const longer = last === undefined ? word : `${last}   ${word}`;
    if (columns(word) > width) return undefined;
    if (last !== undefined && columns(longer) <= Math.min(width, SPACED_WIDTH)) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines.flatMap((line, at) => (at === 0 ? [line] : ['', line]));
}

import { columns, graphemes } from '../base/columns.ts';
import { oneLine } from '../base/text.ts';

/**
 * What a piece of text means on the screen; the theme decides how it looks.
 * `bright` is the next action, `bad` a reading out of its limit, the four signal words are for cautions only.
 */
export type Style =
  | 'plain'
  | 'dim'
  | 'bright'
  | 'strong'
  | 'emphasis'
  | 'code'
  | 'struck'
  | 'good'
  | 'bad'
  | 'reverse'
  | 'danger'
  | 'warning'
  | 'caution'
  | 'notice';

/** Text of one meaning; no style is `plain`. */
export interface Span {
  readonly text: string;
  readonly style?: Style;
  /** Of a photograph: in colour each column is an upper half block, `over` on `under`, from 0 (nearly black) to 23. */
  readonly greys?: { readonly over: number; readonly under: number };
}

/** One line of the screen, from left to right. */
export type Row = readonly Span[];

export const span = (text: string, style: Style = 'plain'): Span => ({ text, style });

export const blank: Row = [];

/** Width in terminal columns. */
export const rowColumns = (row: Row): number => row.reduce((sum, { text }) => sum + columns(text), 0);

/** The words alone, without their meanings. */
export const rowText = (row: Row): string => row.map(({ text }) => text).join('');

/** The row moved to the right by `by` columns. */
export const indentRow = (row: Row, by: number): Row => (by > 0 ? [span(' '.repeat(by)), ...row] : row);

/** The row with line breaks and control characters turned into harmless marks; the last gate before the terminal. */
export function cleanRow(row: Row): Row {
  return row.map((part) => {
    const text = oneLine(part.text);
    return text === part.text ? part : { ...part, text };
  });
}

/** The row cut to at most `width` columns; whatever was lost leaves a `…` in the style of the place. */
export function cutRow(row: Row, width: number): Row {
  if (width <= 0) return [];
  if (rowColumns(row) <= width) return row;
  const kept: Span[] = [];
  let room = width - 1;
  for (const part of row) {
    const text = startOf(part.text, room);
    room -= columns(text);
    if (text !== part.text) {
      kept.push({ ...part, text: `${text}…` });
      break;
    }
    kept.push(part);
  }
  return kept;
}

/** The row cut or filled with spaces to exactly `width` columns; the filling has the meaning `style`. */
export function fillRow(row: Row, width: number, style: Style = 'plain'): Row {
  const kept = cutRow(row, width);
  const missing = width - rowColumns(kept);
  return missing > 0 ? [...kept, span(' '.repeat(missing), style)] : kept;
}

/** `left` at the left edge and `right` at the right one, at least a space between: `left` is cut first, `right` last. */
export function leftRight(left: Row, right: Row, width: number): Row {
  const kept = cutRow(right, width);
  const taken = rowColumns(kept);
  if (taken === 0) return cutRow(left, width);
  return [...fillRow(left, width - taken - 1), ...(taken < width ? [span(' ')] : []), ...kept];
}

function startOf(text: string, room: number): string {
  let taken = 0;
  let start = '';
  for (const grapheme of graphemes(text)) {
    taken += columns(grapheme);
    if (taken > room) break;
    start += grapheme;
  }
  return start;
}

import { columns, graphemes } from '../base/columns.ts';
import { cutRow, indentRow, type Row, type Span, type Style } from './row.ts';

/**
 * The row broken at its spaces into rows of at most `width` columns; every row after the first is moved right by `indent`
 * columns. A word longer than a row is broken where the row ends. There is always at least one row.
 */
export function wrapRow(row: Row, width: number, indent = 0): readonly Row[] {
  const hang = indent < width ? indent : 0;
  const rows: Cell[][] = [[]];
  let line: Cell[] = [];
  let taken = 0;
  let space: Cell | undefined;

  const breakLine = (): void => {
    line = [];
    rows.push(line);
    taken = hang;
    space = undefined;
  };
  const place = (cell: Cell): void => {
    if (taken + cell.size > width && line.length > 0) breakLine();
    line.push(cell);
    taken += cell.size;
  };

  line = rows[0] ?? line;
  for (const word of words(row)) {
    if (word.kind === 'space') {
      space = word.cell;
      continue;
    }
    const size = word.cells.reduce((sum, cell) => sum + cell.size, 0);
    const gap = space === undefined ? 0 : 1;
    if (line.length > 0 && taken + gap + size > width) breakLine();
    else if (space !== undefined) place(space);
    space = undefined;
    for (const cell of word.cells) place(cell);
  }
  return rows.map((cells, at) => cutRow(indentRow(joined(cells), at === 0 ? 0 : hang), width));
}

/** One grapheme with its meaning and its width in columns. */
interface Cell {
  readonly text: string;
  readonly style: Style;
  readonly size: number;
}

type Word =
  | { readonly kind: 'space'; readonly cell: Cell }
  | { readonly kind: 'word'; readonly cells: readonly Cell[] };

function words(row: Row): readonly Word[] {
  const found: Word[] = [];
  let cells: Cell[] = [];
  const end = (): void => {
    if (cells.length > 0) found.push({ kind: 'word', cells });
    cells = [];
  };
  for (const { text, style = 'plain' } of row) {
    for (const grapheme of graphemes(text)) {
      if (BREAKS.test(grapheme)) {
        end();
        found.push({ kind: 'space', cell: { text: ' ', style, size: 1 } });
      } else {
        cells.push({ text: grapheme, style, size: columns(grapheme) });
      }
    }
  }
  end();
  return found;
}

const BREAKS = /^[ \t\r\n]+$/;

function joined(cells: readonly Cell[]): Row {
  const row: Span[] = [];
  for (const { text, style } of cells) {
    const last = row.at(-1);
    if (last?.style === style) row[row.length - 1] = { text: last.text + text, style };
    else row.push({ text, style });
  }
  return row;
}

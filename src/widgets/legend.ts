import { blank, cutRow, type Row, rowColumns, span } from './row.ts';

/** One key and what it does, in the words of the legend. */
export interface Hint {
  readonly keys: string;
  readonly words: string;
}

/**
 * The keys in at most `most` rows of `width` columns, the most important first. Hints that find no room are left out from the end, but
 * never the one for `?`, which leads to all the others.
 */
export function legend(hints: readonly Hint[], width: number, most = 1): readonly Row[] {
  const help = hints.find(({ keys }) => keys === '?');
  const others = hints.filter((hint) => hint !== help);
  for (let count = others.length; count >= 0; count--) {
    const rows = laidOut([...others.slice(0, count), ...(help ? [help] : [])], width);
    if (rows.length <= most && rows.every((row) => rowColumns(row) <= width)) return rows;
  }
  return help ? [cutRow(hintRow(help), width)] : [blank];
}

function laidOut(hints: readonly Hint[], width: number): readonly Row[] {
  const rows: Row[] = [];
  for (const hint of hints) {
    const row = rows.at(-1);
    const longer = row && [...row, span(' · ', 'dim'), ...hintRow(hint)];
    if (longer && rowColumns(longer) <= width) rows[rows.length - 1] = longer;
    else rows.push(hintRow(hint));
  }
  return rows.length === 0 ? [blank] : rows;
}

const hintRow = ({ keys, words }: Hint): Row => [span(keys, 'strong'), span(` ${words}`)];

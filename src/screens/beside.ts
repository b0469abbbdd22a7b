import { indentRow, leftRight, type Row, rowColumns, type Span } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';

/**
 * Words on the left, broken into rows, and something short at the right end of the first of them. `mark` stands before the words, whose
 * later rows begin below the first word. What would take more than half on the right goes below, whole: a value is never cut.
 */
export function beside(mark: Span, words: Row, right: Row, width: number): readonly Row[] {
  const indent = rowColumns([mark]);
  const isWide = rowColumns(right) > Math.floor(width / 2);
  const kept = isWide ? [] : right;
  const taken = rowColumns(kept);
  const below = isWide ? wrapRow(right, Math.max(1, width - indent)) : [];
  const [first = [], ...rest] = wrapRow(words, Math.max(1, width - indent - (taken > 0 ? taken + 2 : 0)));
  const head: Row = [mark, ...first];
  return [taken > 0 ? leftRight(head, kept, width) : head, ...[...rest, ...below].map((row) => indentRow(row, indent))];
}

import { columns } from '../base/columns.ts';
import { shrink } from '../base/shrink.ts';
import { cut, oneLine, pad, padStart } from '../base/text.ts';

/** A column of a plain text table; numbers stand to the right. */
export interface Column {
  readonly name: string;
  readonly align: 'left' | 'right';
}

/**
 * A table as lines of plain text, none wider than `width` and without spaces at the end: the names, a rule, one line for each of the cells, made safe to print.
 * When it is too wide the widest columns of words give up room first and what is cut ends in `…`; numbers are cut last.
 */
export function table(
  shape: readonly Column[],
  outside: readonly (readonly string[])[],
  width: number,
): readonly string[] {
  const cells = outside.map((line) => line.map(oneLine));
  const names = shape.map(({ name }) => name);
  const natural = shape.map((_, at) => Math.max(0, ...[names, ...cells].map((line) => columns(line[at] ?? ''))));
  const room = width - GAP.length * Math.max(0, shape.length - 1);
  const words = shrink(natural, room, (at) => (shape[at]?.align === 'left' ? LEAST_WORDS : (natural[at] ?? 0)));
  const sizes = shrink(words, room, () => 1);
  const line = (texts: readonly string[]): string =>
    cut(shape.map(({ align }, at) => put[align](texts[at] ?? '', sizes[at] ?? 0)).join(GAP), width).trimEnd();
  return [line(names), line(sizes.map((size) => '─'.repeat(size))), ...cells.map(line)];
}

const GAP = '  ';

/** Narrower than this a column of words says nothing; then numbers have to give way too. */
const LEAST_WORDS = 6;

const put = { left: pad, right: padStart } as const;

import wrapAnsi from 'wrap-ansi';
import { columns } from '../base/columns.ts';
import { shrink } from '../base/shrink.ts';

/** A table whose cells are styled already. */
export interface MarkdownTable {
  readonly header: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly align: readonly ('left' | 'right' | 'center' | null)[];
}

/**
 * The table in at most `width` columns: too wide, its cells are wrapped, the widest column first; far too wide, each row becomes a
 * list of `name: cell`.
 */
export function tableLines({ header, rows, align }: MarkdownTable, width: number): readonly string[] {
  const all = [header, ...rows];
  const natural = header.map((_, at) => Math.max(1, ...all.map((row) => columns(row[at] ?? ''))));
  const room = width - BAR.length * (header.length - 1);
  const sizes = shrink(natural, room, (at) => Math.min(LEAST, natural[at] ?? LEAST));
  if (sizes.reduce((sum, size) => sum + size, 0) > room) return asList(header, rows, width);
  const line = (row: readonly string[]): readonly string[] => {
    const cells = sizes.map((size, at) => wrapAnsi(row[at] ?? '', size, { hard: true }).split('\n'));
    const height = Math.max(1, ...cells.map((lines) => lines.length));
    return Array.from({ length: height }, (_, y) =>
      sizes
        .map((size, at) => placed(cells[at]?.[y] ?? '', size, align[at] ?? 'left'))
        .join(BAR)
        .trimEnd(),
    );
  };
  return [...line(header), sizes.map((size) => '─'.repeat(size)).join('─┼─'), ...rows.flatMap(line)];
}

const BAR = ' │ ';

/** A column narrower than this tears words to pieces. */
const LEAST = 8;

function asList(header: readonly string[], rows: MarkdownTable['rows'], width: number): readonly string[] {
  const entries = rows.map((row) =>
    header.flatMap((name, at) => wrapAnsi(`${name}: ${row[at] ?? ''}`, width, { hard: true }).split('\n')),
  );
  return entries.flatMap((lines, at) => (at === 0 ? lines : ['', ...lines]));
}

function placed(text: string, size: number, align: 'left' | 'right' | 'center'): string {
  const space = Math.max(0, size - columns(text));
  const before = { left: 0, right: space, center: Math.floor(space / 2) }[align];
  return ' '.repeat(before) + text + ' '.repeat(space - before);
}

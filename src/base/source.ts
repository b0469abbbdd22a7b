/** The text of a file as its reader works on it: no byte order mark, every line ending a line feed. */
export interface Source {
  readonly file: string;
  readonly text: string;
  /** Offset of the first character of each line. */
  readonly lineStarts: readonly number[];
}

/** Line and column count from 1; columns in UTF-16 units, as editors count them. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

export function sourceOf(raw: string, file: string): Source {
  const text = raw.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const lineStarts = [0];
  for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) lineStarts.push(at + 1);
  return { file, text, lineStarts };
}

export function placeOf(source: Source, offset: number): Place {
  let low = 0;
  let high = source.lineStarts.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((source.lineStarts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return { line: low + 1, column: offset - (source.lineStarts[low] ?? 0) + 1 };
}

/** The line without its line feed; `line` counts from 1. */
export function lineText(source: Source, line: number): string {
  const start = source.lineStarts[line - 1];
  if (start === undefined) return '';
  const next = source.lineStarts[line];
  return source.text.slice(start, next === undefined ? undefined : next - 1);
}

import { remember } from '../base/remember.ts';
import { markdownLines } from './markdown-lines.ts';
import { cutRow, type Row, type Span, type Style } from './row.ts';

/**
 * Markdown prose as rows of at most `width` columns. Nothing in the text is obeyed by the terminal: what remains are meanings. The last
 * results are kept, so asking again with the same text and width costs nothing and gives the same array.
 */
export const prose = (markdown: string, width: number): readonly Row[] =>
  kept(`${width} ${markdown}`, () =>
    markdownLines(markdown, Math.max(1, width)).map((line) => cutRow(styled(line), width)),
  );

const kept = remember<readonly Row[]>(100);

/** The line as spans; of the escape sequences in it only those that `markdownLines` itself puts there can occur. */
function styled(line: string): Row {
  const row: Span[] = [];
  const open = new Set<string>();
  for (const [at, part] of line.split(MARK).entries()) {
    if (at % 2 === 0) {
      if (part !== '') row.push({ text: part, style: styleOf(open) });
      continue;
    }
    const opened = CLOSES.get(part);
    if (opened === undefined) open.add(part);
    else open.delete(opened);
  }
  return row;
}

const MARK = /\u001b\[(\d+)m/;
const CLOSES: ReadonlyMap<string, string> = new Map([
  ['22', '1'],
  ['23', '3'],
  ['29', '9'],
  ['39', '36'],
]);

function styleOf(open: ReadonlySet<string>): Style {
  if (open.has('9')) return 'struck';
  if (open.has('1')) return 'strong';
  if (open.has('3')) return 'emphasis';
  return open.has('36') ? 'code' : 'plain';
}

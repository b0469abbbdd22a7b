/** From `start` up to but not including `end`. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

export interface CodeSpan extends Span {
  /** Width of the run of backticks on each side. */
  readonly fence: number;
}

export interface InlineSpans {
  readonly codes: readonly CodeSpan[];
  readonly comments: readonly Span[];
}

/** Code spans (CommonMark 0.31.2, section 6.1) and HTML comments within a paragraph, found in one pass. */
export function inlineSpans(text: string): InlineSpans {
  if (!text.includes('`') && !text.includes('<!--')) return NONE;
  const runs = backtickRuns(text);
  const codes: CodeSpan[] = [];
  const comments: Span[] = [];
  const lastClose = text.lastIndexOf('-->');
  const start = /\\[\s\S]|`+|<!--/g;
  for (let found = start.exec(text); found !== null; found = start.exec(text)) {
    if (found[0].startsWith('\\')) continue;
    if (found[0] === '<!--') {
      if (lastClose < found.index + 4) continue;
      const end = text.indexOf('-->', found.index + 4);
      comments.push({ start: found.index, end: end + 3 });
      start.lastIndex = end + 3;
    } else {
      const fence = found[0].length;
      const close = nextRun(runs.get(fence) ?? [], found.index);
      if (close === undefined) continue;
      codes.push({ start: found.index, end: close + fence, fence });
      start.lastIndex = close + fence;
    }
  }
  return { codes, comments };
}

/** The text with every code span blanked out by `FILLER`, so that nothing inside is taken for a sign of the grammar. */
export function withoutCode(text: string, codes: readonly Span[]): string {
  const parts: string[] = [];
  let at = 0;
  for (const { start, end } of codes) {
    parts.push(text.slice(at, start), FILLER.repeat(end - start));
    at = end;
  }
  parts.push(text.slice(at));
  return parts.join('');
}

/** Stands where a code span was; no word, no space, no sign of the grammar. */
export const FILLER = '\u0001';

/** What stands inside a code span, without one space of padding on each side. */
export function codeWords(text: string, { start, end, fence }: CodeSpan): string {
  return text.slice(start + fence, end - fence).trim();
}

const NONE: InlineSpans = { codes: [], comments: [] };

function backtickRuns(text: string): ReadonlyMap<number, readonly number[]> {
  const runs = new Map<number, number[]>();
  for (const { 0: run, index } of text.matchAll(/`+/g)) {
    const known = runs.get(run.length);
    if (known) known.push(index);
    else runs.set(run.length, [index]);
  }
  return runs;
}

function nextRun(starts: readonly number[], after: number): number | undefined {
  let low = 0;
  let high = starts.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((starts[middle] ?? 0) > after) high = middle;
    else low = middle + 1;
  }
  return starts[low];
}

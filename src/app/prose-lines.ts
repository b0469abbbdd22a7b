import { plainText } from '../procedure/plain-text.ts';

/** The words of a Markdown text, each paragraph and each item of a list on one line: where its file breaks a line means nothing. */
export function proseLines(markdown: string): readonly string[] {
  const parts: string[] = [];
  let before = '';
  for (const line of markdown.split('\n')) {
    const goesOn = before.trim() !== '' && !OWN_LINE.test(before) && line.trim() !== '' && !BEGINS.test(line);
    if (goesOn) parts.push(`${parts.pop()} ${line.trim()}`);
    else parts.push(line);
    before = line;
  }
  return parts.map(plainText).filter((line) => line !== '');
}

/** Rows of a table and headings. */
const OWN_LINE = /^\s*[|#]/;
/** What starts a line of its own: those, and items and quotes. */
const BEGINS = /^\s*(?:[|#>]|[-*+]\s|\d+[.)]\s)/;

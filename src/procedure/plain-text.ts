import { fromMarkdown } from 'mdast-util-from-markdown';
import { gfmFromMarkdown } from 'mdast-util-gfm';
import { toString as wordsOf } from 'mdast-util-to-string';
import { gfm } from 'micromark-extension-gfm';

/** The words of a line of Markdown as a reader sees them: no stars, backticks or addresses; spaces drawn together. */
export function plainText(markdown: string): string {
  const text = markdown.replace(/\s+/g, ' ').trim();
  if (!MARKED.test(text)) return text;
  if (text.length > LONGEST || (text.match(/[*_~[\]]/g)?.length ?? 0) > MOST_MARKS) return text.replace(/[*`]/g, '');
  // A first word keeps the parser from seeing a list, a heading or a box of its own in the middle of somebody's sentence.
  const tree = fromMarkdown(`x ${text}`, GFM);
  return wordsOf(tree).slice(2).replace(/\s+/g, ' ').trim();
}

const GFM = { extensions: [gfm()], mdastExtensions: [gfmFromMarkdown()] };
const MARKED = /[\\`*_[\]<&~!]/;
/** Beyond these the library's work grows with the square of the length. */
const LONGEST = 2000;
const MOST_MARKS = 60;

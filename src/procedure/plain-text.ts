import { Parser } from 'commonmark';

/** The words of a line of Markdown as a reader sees them: no stars, backticks, strikes or addresses; spaces drawn together. */
export function plainText(markdown: string): string {
  const text = markdown.replace(/\s+/g, ' ').trim();
  if (!MARKED.test(text)) return text;
  if (text.length > LONGEST || (text.match(/[*_~[\]]/g)?.length ?? 0) > MOST_MARKS) return text.replace(/[*`]/g, '');
  const isStruck = /~~\S(?:.*\S)?~~/.test(text);
  // A first word keeps the parser from seeing a list, a heading or a quote of its own in the middle of somebody's sentence.
  const walker = parser.parse(`x ${text}`).walker();
  const words: string[] = [];
  for (let event = walker.next(); event !== null; event = walker.next()) {
    const { type, literal } = event.node;
    if (event.entering && literal !== null)
      words.push(isStruck && type === 'text' ? literal.replaceAll('~~', '') : literal);
  }
  return words.join('').slice(2).replace(/\s+/g, ' ').trim();
}

const parser = new Parser();
const MARKED = /[\\`*_[\]<&~!]/;
/** Beyond these the library's work grows with the square of the length. */
const LONGEST = 2000;
const MOST_MARKS = 60;

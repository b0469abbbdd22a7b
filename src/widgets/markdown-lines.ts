import { Marked, type MarkedExtension, type RendererObject, type Token, type Tokens } from 'marked';
import { markedTerminal } from 'marked-terminal';
import wrapAnsi from 'wrap-ansi';
import { withNamedCharacters } from '../base/named-characters.ts';
import { showHidden } from '../base/text.ts';
import { tableLines } from './markdown-table.ts';

/**
 * Markdown as lines of about `width` columns, styled with the escape sequences for bold, italic, struck out and cyan (code) and no
 * others; whatever the text itself brings of that kind is shown as marks. marked-terminal does what stands within a line; the blocks
 * are our own, since its lists and tables take no notice of the width.
 */
export function markdownLines(markdown: string, width: number): readonly string[] {
  room = width;
  return drawn(markdown).replace(/\n+$/, '').split('\n');
}

/** Text nested thousands deep exhausts the stack of the parser; it is shown as it was written. */
function drawn(markdown: string): string {
  const outer = room;
  try {
    return marked.parse(markdown, { async: false });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    room = outer;
    return wrapped(showHidden(markdown));
  }
}

/** Columns for the block being drawn: less inside a list or a quotation. One text is drawn at a time, without a pause. */
let room = 80;

/** No block is squeezed narrower than this by what it stands in; it moves to the left instead. */
const LEAST_ROOM = 12;

const strong = (text: string): string => `\u001b[1m${text}\u001b[22m`;
const emphasis = (text: string): string => `\u001b[3m${text}\u001b[23m`;
const struck = (text: string): string => `\u001b[9m${text}\u001b[29m`;
const code = (text: string): string => `\u001b[36m${text}\u001b[39m`;

const blocks: RendererObject = {
  paragraph({ tokens }) {
    return block(wrapped(this.parser.parseInline(tokens)));
  },
  heading({ tokens }) {
    return block(wrapped(strong(this.parser.parseInline(tokens))));
  },
  hr() {
    return block('─'.repeat(room));
  },
  code({ text }) {
    const lines = showHidden(text).split('\n');
    return block(beside('  ', '  ', () => lines.map((line) => hardWrapped(code(line))).join('\n')));
  },
  html({ text, block: isBlock }) {
    return isBlock ? block(wrapped(showHidden(text))) : showHidden(text);
  },
  blockquote({ tokens }) {
    return block(beside('│ ', '│ ', () => this.parser.parse(tokens)));
  },
  list(list) {
    const items = list.items.map((item, at) =>
      beside(marker(list, item, at), '', () => inItem(item.tokens, this.parser)),
    );
    return block(items.join(list.loose ? '\n\n' : '\n'));
  },
  /** The marker of the item stands for the box. */
  checkbox() {
    return '';
  },
  table({ header, rows, align }) {
    const text = (cell: Tokens.TableCell): string => this.parser.parseInline(cell.tokens);
    return block(
      tableLines({ header: header.map(text), rows: rows.map((row) => row.map(text)), align }, room).join('\n'),
    );
  },
};

const inLine: RendererObject = {
  text(token) {
    if ('tokens' in token && token.tokens) return this.parser.parseInline(token.tokens);
    return showHidden(withNamedCharacters(token.text)).replaceAll('\n', ' ');
  },
  codespan({ text }) {
    return code(showHidden(text));
  },
  link({ href, tokens }) {
    const words = this.parser.parseInline(tokens);
    const address = showHidden(href);
    return words === address || `mailto:${words}` === address ? words : `${words} (${address})`;
  },
  image({ text, href }) {
    return `[${showHidden(text || href)}]`;
  },
};

const marked = new Marked(
  // The types stand for a much older version, which returned the renderer itself.
  markedTerminal({ strong, em: emphasis, del: struck, emoji: false }) as unknown as MarkedExtension,
  { gfm: true, renderer: { ...blocks, ...inLine } },
);

const block = (text: string): string => `${text.replace(/\n+$/, '')}\n\n`;

const wrapped = (text: string): string => wrapAnsi(text, room, { hard: true });
const hardWrapped = (text: string): string => wrapAnsi(text, room, { hard: true, trim: false, wordWrap: false });

/** What `draw` draws with `first` before its first line and `others` before the rest, in the room that leaves. */
function beside(first: string, others: string, draw: () => string): string {
  const outer = room;
  const fits = outer - first.length >= LEAST_ROOM;
  room = fits ? outer - first.length : outer;
  const lines = draw().replace(/\n+$/, '').split('\n');
  room = outer;
  if (!fits) return (first.trim() === '' ? lines : [first.trimEnd(), ...lines]).join('\n');
  const rest = others.padEnd(first.length);
  return lines.map((line, at) => ((at === 0 ? first : rest) + line).trimEnd()).join('\n');
}

function marker(list: Tokens.List, item: Tokens.ListItem, at: number): string {
  if (item.task) return item.checked ? '[x] ' : '[ ] ';
  if (!list.ordered) return '• ';
  const first = list.start === '' ? 1 : list.start;
  const number = (n: number): string => `${first + n}. `;
  return number(at).padStart(number(list.items.length - 1).length);
}

/** In a tight list the words of an item are a `text` token on the level of blocks: it has to be wrapped like a paragraph. */
function inItem(
  tokens: readonly Token[],
  parser: { parse(tokens: Token[]): string; parseInline(tokens: Token[]): string },
): string {
  return tokens
    .filter(({ type }) => type !== 'checkbox' && type !== 'space')
    .map((token) => (token.type === 'text' ? `${wrapped(parser.parseInline([token]))}\n` : parser.parse([token])))
    .join('');
}

import { Marked, type RendererObject, type Token, type Tokens } from 'marked';
import { withNamedCharacters } from '../../base/named-characters.ts';
import { type Html, html } from './html.ts';

/**
 * Markdown as markup of our own making: paragraphs, lists, tables, emphasis. Markup within the text is shown as it was written, and a link
 * as its words and its address: paper cannot be clicked. No text gives no markup.
 */
export function prose(markdown: string): Html {
  try {
    return { markup: marked.parse(markdown, { async: false }) };
  } catch (error) {
    // Text nested thousands deep exhausts the stack of the parser.
    if (!(error instanceof RangeError)) throw error;
    return html`<p>${markdown}</p>`;
  }
}

const words = (text: string): string => html`${text}`.markup;
const tag = (name: 'p' | 'li' | 'b' | 'i' | 's' | 'code' | 'blockquote' | 'pre', inner: string): string =>
  `<${name}>${inner}</${name}>`;

const renderer: RendererObject = {
  paragraph({ tokens }) {
    return tag('p', this.parser.parseInline(tokens));
  },
  heading({ tokens }) {
    return tag('p', tag('b', this.parser.parseInline(tokens)));
  },
  hr: () => '<hr>',
  code: ({ text }) => tag('pre', words(text)),
  html: ({ text, block }) => (block ? tag('p', words(text)) : words(text)),
  blockquote({ tokens }) {
    return tag('blockquote', this.parser.parse(tokens));
  },
  list({ ordered, start, items }) {
    const inner = items.map((item) => this.listitem(item)).join('');
    return ordered ? `<ol start="${Number(start) || 1}">${inner}</ol>` : `<ul>${inner}</ul>`;
  },
  listitem({ tokens, task, checked }) {
    const box = task ? (checked ? '☑ ' : '☐ ') : '';
    return tag('li', box + this.parser.parse(tokens.filter(({ type }: Token) => type !== 'checkbox')));
  },
  checkbox: () => '',
  table({ header, rows }) {
    const row = (cells: readonly Tokens.TableCell[], name: 'td' | 'th'): string =>
      `<tr>${cells.map(({ tokens }) => `<${name}>${this.parser.parseInline(tokens)}</${name}>`).join('')}</tr>`;
    return `<table>${row(header, 'th')}${rows.map((cells) => row(cells, 'td')).join('')}</table>`;
  },
  strong({ tokens }) {
    return tag('b', this.parser.parseInline(tokens));
  },
  em({ tokens }) {
    return tag('i', this.parser.parseInline(tokens));
  },
  del({ tokens }) {
    return tag('s', this.parser.parseInline(tokens));
  },
  codespan: ({ text }) => tag('code', words(text)),
  br: () => '<br>',
  link({ href, tokens }) {
    const said = this.parser.parseInline(tokens);
    return said === words(href) ? said : `${said} (${words(href)})`;
  },
  image: ({ text, href }) => words(`[${text || href}]`),
  text(token) {
    if ('tokens' in token && token.tokens) return this.parser.parseInline(token.tokens);
    return words(withNamedCharacters(token.text));
  },
};

const marked = new Marked({ gfm: true, renderer });

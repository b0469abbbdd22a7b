import { type Node, Parser } from 'commonmark';
import type { BlockContent, Code, Heading, ListItem, Root, Text } from 'mdast';
import { placeOf, type Source } from '../base/source.ts';

/**
 * The blocks of a file with their positions: front matter, headings, lists, blockquotes, code, HTML, paragraphs. What stands inside a
 * line is left as it is: the reader looks at the words as they were written, because a row of underscores or a box with a slip
 * in it is ordinary text or emphasis to Markdown. That also keeps the time in step with the length of the text.
 *
 * A paragraph has no children, a heading only its words.
 */
export function parseBlocks(source: Source): Root {
  const [front = '', value = ''] = FRONT_MATTER.exec(source.text) ?? [];
  // Empty lines in place of the front matter keep the count of the lines below it.
  const rest = front.replace(/[^\n]/g, '') + source.text.slice(front.length);
  const blocks = childrenOf(parser.parse(rest)).map((node) => blockOf(node, source));
  if (front === '') return { type: 'root', children: blocks };
  const position = spanned(source, 0, front.trimEnd().length);
  return { type: 'root', children: [{ type: 'yaml', value, position }, ...blocks] };
}

/** Whether a block of code stands between marks, not merely far to the right. */
export const isFenced = (code: Code): boolean => typeof code.lang === 'string';

const FRONT_MATTER = /^---[ \t]*\n(?:([\s\S]*?)\n)?---[ \t]*(?:\n|$)/;

/**
 * The parser reads the blocks of a text first, then what is inside each. The second half is left out, and with it the search for the
 * addresses of links at the start of a paragraph.
 */
const parser = Object.assign(new Parser(), {
  processInlines: () => undefined,
  inlineParser: { parseReference: () => 0 },
});

function childrenOf(parent: Node): readonly Node[] {
  const children: Node[] = [];
  for (let child = parent.firstChild; child !== null; child = child.next) children.push(child);
  return children;
}

function blockOf(node: Node, source: Source): BlockContent {
  const position = positionOf(node, source);
  switch (node.type) {
    case 'paragraph':
      return { type: 'paragraph', children: [], position };
    case 'heading':
      return headingOf(node, position, source);
    case 'list':
      return { type: 'list', children: childrenOf(node).map((item) => itemOf(item, source)), position };
    case 'block_quote':
      return { type: 'blockquote', children: childrenOf(node).map((child) => blockOf(child, source)), position };
    case 'code_block':
      return { type: 'code', value: node.literal ?? '', lang: node.info ?? null, position };
    case 'html_block':
      return { type: 'html', value: node.literal ?? '', position };
    case 'thematic_break':
      return { type: 'thematicBreak', position };
    default:
      throw new Error(`no block of Markdown: ${node.type}`);
  }
}

function itemOf(node: Node, source: Source): ListItem {
  const children = childrenOf(node).map((child) => blockOf(child, source));
  return { type: 'listItem', children, position: positionOf(node, source) };
}

/** The words lie between the marks of `## Words ##`, or above the line that underlines them. */
function headingOf(node: Node, position: Spanned, source: Source): Heading {
  const start = position.start.offset;
  const text = source.text.slice(start, position.end.offset);
  const marks = /^#{1,6}(?:[ \t]+|$)/.exec(text)?.[0].length ?? 0;
  const words = marks > 0 ? text.slice(marks).replace(/(?:^|[ \t]+)#+[ \t]*$/, '') : text.replace(/\n[^\n]*$/, '');
  const end = start + marks + words.trimEnd().length;
  const value = source.text.slice(start + marks, end);
  const children: Text[] = value === '' ? [] : [{ type: 'text', value, position: spanned(source, start + marks, end) }];
  return { type: 'heading', depth: node.level as Heading['depth'], children, position };
}

type Spanned = ReturnType<typeof spanned>;

function positionOf({ sourcepos: [[startLine, startColumn], [endLine, endColumn]] }: Node, source: Source): Spanned {
  const start = (source.lineStarts[startLine - 1] ?? 0) + startColumn - 1;
  return spanned(source, start, Math.max(start, (source.lineStarts[endLine - 1] ?? 0) + endColumn));
}

function spanned(source: Source, start: number, end: number) {
  const point = (offset: number) => ({ ...placeOf(source, offset), offset });
  return { start: point(start), end: point(end) };
}

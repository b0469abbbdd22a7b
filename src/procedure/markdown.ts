import type { Root } from 'mdast';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { frontmatterFromMarkdown } from 'mdast-util-frontmatter';
import { frontmatter } from 'micromark-extension-frontmatter';

/**
 * The blocks of a file with their positions: headings, lists, blockquotes, fences, paragraphs. What stands inside a line is
 * left as it is: the reader looks at the words as they were written, because a row of underscores or a box with a slip
 * in it is ordinary text or emphasis to Markdown. That also keeps the time in step with the length of the text.
 */
export function parseBlocks(text: string): Root {
  return fromMarkdown(text, BLOCKS_ONLY);
}

const INSIDE_A_LINE = [
  'attention',
  'autolink',
  'characterEscape',
  'characterReference',
  'codeText',
  'definition',
  'hardBreakEscape',
  'htmlText',
  'labelEnd',
  'labelStartImage',
  'labelStartLink',
];

const BLOCKS_ONLY = {
  extensions: [frontmatter(), { disable: { null: INSIDE_A_LINE } }],
  mdastExtensions: [frontmatterFromMarkdown()],
};

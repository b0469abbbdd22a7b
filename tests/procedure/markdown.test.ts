import fc from 'fast-check';
import type { Nodes } from 'mdast';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { frontmatterFromMarkdown } from 'mdast-util-frontmatter';
import { frontmatter } from 'micromark-extension-frontmatter';
import { expect, test } from 'vitest';
import { sourceOf } from '../../src/base/source.ts';
import { parseBlocks } from '../../src/procedure/markdown.ts';

/**
 * The blocks and where they begin, against a second parser that shares no code with the first. Addresses of links are no blocks here,
 * so the second is told to leave them. Both follow CommonMark 0.31.2. The second is known to take a list that begins with another
 * number than 1, or with nothing, for a paragraph where it interrupts none; so none does. How far code and HTML are set in is told
 * differently, and nobody asks.
 */
const second = (text: string): Nodes =>
  fromMarkdown(text, {
    extensions: [frontmatter(), { disable: { null: ['definition'] } }],
    mdastExtensions: [frontmatterFromMarkdown()],
  });

const blocks = (node: Nodes): unknown => {
  const { line, column } = node.position?.start ?? { line: 1, column: 1 };
  const place = node.type === 'code' || node.type === 'html' ? `${line}` : `${line}:${column}`;
  if (!('children' in node) || node.type === 'paragraph' || node.type === 'heading') return `${node.type} ${place}`;
  return [node.type === 'root' ? 'root' : `${node.type} ${place}`, ...node.children.map(blocks)];
};

const pieces = fc.constantFrom(
  ...['- ', '* ', '1. ', '- [ ] ', '> ', '## ', '# ', '---', '___', '===', '```', '~~~', 'words', ' ____ ', '    '],
  ...['\n', '\n', '\n', '\n\n', '  ', '\t', '<div>', '<!--', '-->', '</div>', '`', '[a]: b', '|', '\\', '#'],
);

test('two parsers see the same blocks begin at the same places', () => {
  fc.assert(
    fc.property(
      fc
        .array(pieces, { maxLength: 30 })
        .map((parts) => `# T\n${parts.join('')}\nend\n`.replace(/(?<![-*])([-*]|\d[.)])[ \t]*$/gm, '$1 x')),
      (text) => {
        expect(blocks(parseBlocks(sourceOf(text, 'x.md')))).toEqual(blocks(second(text)));
      },
    ),
    { numRuns: 1000 },
  );
});

test('what stands inside a line is not taken apart', () => {
  const text = `${'[a]('.repeat(4000)}\n`.repeat(50);
  expect(blocks(parseBlocks(sourceOf(text, 'x.md')))).toEqual(['root', 'paragraph 1:1']);
});

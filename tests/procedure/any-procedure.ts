import fc from 'fast-check';
import type { Nodes } from 'mdast';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { frontmatterFromMarkdown } from 'mdast-util-frontmatter';
import { frontmatter } from 'micromark-extension-frontmatter';
import { readProcedure } from '../../src/procedure/read-procedure.ts';

const TOKENS = [
  '-',
  '[',
  ']',
  '(',
  ')',
  '_',
  '____',
  '*',
  '**',
  '+',
  '{',
  '}',
  '|',
  '=',
  '\\',
  '`',
  '```',
  '#',
  '## ',
  '>',
  '> ',
  ' ',
  '\t',
  '\n',
  '\n\n',
  '    ',
  '- [ ] ',
  '- [x] ',
  '1. [ ] ',
  '2) [ ] ',
  'mm',
  '12',
  'words',
  '{#a}',
  '---\n',
  '**WARNING**',
  '![',
  '~~~',
  ':',
];
/** Signs of the notation in any order. */
export const garbage = fc.array(fc.constantFrom(...TOKENS), { maxLength: 60 }).map((parts) => parts.join(''));
/** The same behind a front matter and a step's heading. */
export const headed = garbage.map((text) => `---\nprocedure: A\ntitle: B\n---\n\n## S\n\n${text}`);

/** A parser that shares no code with the reader. */
const parsed = (text: string): Nodes =>
  fromMarkdown(text, { extensions: [frontmatter()], mdastExtensions: [frontmatterFromMarkdown()] });

const spanOf = ({ position }: Nodes): readonly [start: number, end: number] => [
  position?.start.offset ?? 0,
  position?.end.offset ?? 0,
];

function nodesOf(node: Nodes): readonly Nodes[] {
  return 'children' in node ? [node, ...node.children.flatMap(nodesOf)] : [node];
}

/** What CommonMark shows to nobody or shows as it is: front matter, fenced code and comments. Code spans are not among it. */
function hiddenSpans(text: string, nodes: readonly Nodes[]): readonly (readonly [start: number, end: number])[] {
  return nodes.flatMap((node) => {
    const [start, end] = spanOf(node);
    const words = text.slice(start, end);
    if (node.type === 'yaml' || (node.type === 'code' && /^(?:`{3}|~{3})/.test(words))) return [[start, end] as const];
    if (node.type !== 'html') return [];
    return [...words.matchAll(/<!--(?:-?>|[\s\S]*?(?:-->|$))/g)].map(
      ({ 0: comment, index }) => [start + index, start + index + comment.length] as const,
    );
  });
}

const TASK = /^[\s>]*(?:[-*+]|\d{1,9}[.)])\s+\[[ xX]\](?:\s|$)/;

/** A line that ends the point above it; `[x]:` says where a link leads. */
const NEXT_BOX = /^[\s>]*(?:[-*+]|\d+[.)])?\s*\[(?: ?\]|[xX]\](?!:))/;

/** Every task on a line of its own is a point, or an error stands on its line or where its paragraph goes on, up to the next box. */
export function expectNothingDropped(text: string): void {
  const { procedure, findings } = readProcedure(text, 'x.md');
  const errors = findings.filter(({ severity }) => severity === 'error');
  const known = new Set([...procedure.steps.flatMap(({ points }) => points), ...errors].map(({ line }) => line));
  const nodes = nodesOf(parsed(text));
  const hidden = hiddenSpans(text, nodes);
  const lines = text.split('\n');
  let start = 0;
  for (const [index, line] of lines.entries()) {
    const box = start + line.indexOf('[');
    start += line.length + 1;
    if (!TASK.test(line) || hidden.some(([from, to]) => box >= from && box < to)) continue;
    const paragraph = nodes.findLast((node) => {
      const [from, to] = spanOf(node);
      return (node.type === 'paragraph' || node.type === 'heading') && from <= box && box < to;
    });
    const more = lines.slice(index + 1, paragraph?.position?.end.line ?? index + 1);
    const next = more.findIndex((each) => NEXT_BOX.test(each));
    const answered = Array.from({ length: 1 + (next < 0 ? more.length : next) }, (_, at) => index + 1 + at);
    if (!answered.some((each) => known.has(each)))
      throw new Error(`line ${index + 1} was dropped: ${JSON.stringify(line)}`);
  }
}

/** Pieces that break the structure of a line or a paragraph, more often than words do. */
export const fewPieces = fc
  .array(
    fc.constantFrom(
      ...['- [ ] q', '2) [ ] z', '1. [ ] z', '[ ] y', '\n', '\n', '\n', '`', '``', '<!--', '-->', '\\', '  ', '    '],
      ...['> ', '---', '===', '____', ' x', '|', '<div>', '```', '~~~', '- ', '\t', '<?', '?>', '<a ', '"', '{', '}'],
      ...['(', ')', '{#', '**WARNING**', '\u00a0', '<pre>', '[x]: '],
    ),
    { maxLength: 25 },
  )
  .map((parts) => `---\nprocedure: A\ntitle: B\n---\n\n## S\n\n${parts.join('')}`);

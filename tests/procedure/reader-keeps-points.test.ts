import fc from 'fast-check';
import type { Nodes } from 'mdast';
import { fromMarkdown } from 'mdast-util-from-markdown';
import { frontmatterFromMarkdown } from 'mdast-util-frontmatter';
import { frontmatter } from 'micromark-extension-frontmatter';
import { describe, expect, test } from 'vitest';
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
const garbage = fc.array(fc.constantFrom(...TOKENS), { maxLength: 60 }).map((parts) => parts.join(''));
const headed = garbage.map((text) => `---\nprocedure: A\ntitle: B\n---\n\n## S\n\n${text}`);

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
    return [...words.matchAll(/<!--[\s\S]*?(?:-->|$)/g)].map(
      ({ 0: comment, index }) => [start + index, start + index + comment.length] as const,
    );
  });
}

const TASK = /^[\s>]*(?:[-*+]|\d{1,9}[.)])\s+\[[ xX]\](?:\s|$)/;

/** Every task on a line of its own is a point, or an error stands on its line or where its paragraph goes on, up to the next box. */
function expectNothingDropped(text: string): void {
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
    const next = more.findIndex((each) => /^[\s>]*(?:[-*+]|\d+[.)])?\s*\[[ xX]?\]/.test(each));
    const answered = Array.from({ length: 1 + (next < 0 ? more.length : next) }, (_, at) => index + 1 + at);
    if (!answered.some((each) => known.has(each)))
      throw new Error(`line ${index + 1} was dropped: ${JSON.stringify(line)}`);
  }
}

/** Pieces that break the structure of a line or a paragraph, more often than words do. */
const fewPieces = fc
  .array(
    fc.constantFrom(
      ...['- [ ] q', '2) [ ] z', '1. [ ] z', '[ ] y', '\n', '\n', '\n', '`', '``', '<!--', '-->', '\\', '  ', '    '],
      ...['> ', '---', '===', '____', ' x', '|', '<div>', '```', '~~~', '- ', '\t', '<?', '?>', '<a ', '"', '{', '}'],
      ...['(', ')', '{#', '**WARNING**', '\u00a0', '<pre>', '[x]: '],
    ),
    { maxLength: 25 },
  )
  .map((parts) => `---\nprocedure: A\ntitle: B\n---\n\n## S\n\n${parts.join('')}`);

const step = (text: string): [string] => [`---\nprocedure: A\ntitle: B\n---\n\n## S\n\n${text}`];

describe('whatever is written', () => {
  test('reading never throws', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), garbage, headed), (text) => {
        readProcedure(text, 'x.md');
      }),
      { numRuns: 1500 },
    );
  });

  test('no line that looks like a task is dropped', () => {
    fc.assert(fc.property(fc.oneof(garbage, headed, fewPieces), expectNothingDropped), {
      numRuns: 1500,
      examples: [
        step('- [ ] ---\n____-'),
        step('`\n2) [ ] z`'),
        step('``\n2) [ ] z``'),
        step('words\n\n    ```\n    - [ ] x\n    ```'),
        step('- [ ] a `b\n2. [ ] c` d'),
        step('- [ ] a `b\n> - [ ] c` d'),
        step('2) [ ] ===\n-___'),
        step('- [ ] -{#____'),
        step('- [ ]\n- [x]'),
        step('  - [ ] \n[ ]: ____-'),
      ],
    });
  });

  test.each([
    ['10,000 quotes', '>'.repeat(10_000)],
    ['10,000 list marks', '- '.repeat(10_000).concat('x')],
    ['10,000 numbered marks', '1. '.repeat(10_000).concat('x')],
    ['lists nested line by line', Array.from({ length: 1200 }, (_, depth) => `${'  '.repeat(depth)}- x`).join('\n')],
  ])('%s is too deep, and says so', (_, text) => {
    expect(readProcedure(text, 'x.md').findings.map(({ rule }) => rule)).toEqual(['too-deep']);
  });

  test('too many lines are refused, and said', () => {
    expect(readProcedure('- a\n  - b\n'.repeat(100_000), 'x.md').findings.map(({ rule }) => rule)).toEqual([
      'too-long',
    ]);
  });

  test.each(['a', '*a_', '[', '![', '`a``b', '_', '<!--', '[ ]', '{a', '(', '**a ', '|', '____ '])(
    'a point of %j over and over is a finding, and a line of a million characters is refused',
    (piece) => {
      const rules = (length: number): readonly string[] => {
        const text = `---\nprocedure: A\ntitle: B\n---\n\n## S\n\n- [ ] ${piece.repeat(length / piece.length)}\n`;
        return readProcedure(text, 'x.md').findings.map(({ rule }) => rule);
      };
      expect(rules(19_000)).toContain('point-too-long');
      expect(rules(1_000_000)).toEqual(['too-long']);
    },
  );

  test('a million digits at the start of a line are refused at once', () => {
    const { findings } = readProcedure('1'.repeat(1_000_000), 'x.md');
    expect(findings.map(({ rule }) => rule)).toEqual(['too-long']);
  });

  test('front matter nested without end is a finding', () => {
    for (const open of ['[', '{a: ', '- ', '? ']) {
      const { findings } = readProcedure(`---\nprocedure: ${open.repeat(20_000)}\n---\n\n## S\n\n- [ ] A\n`, 'x.md');
      expect(findings.length).toBeGreaterThan(0);
    }
  });
});

test('line endings, byte order mark and tabs change nothing but columns', () => {
  const text = '---\nprocedure: A\ntitle: B\n---\n\n## S\n\n- [ ] Width ____ mm (12)\n- [ ] Roll ____\n';
  const { procedure } = readProcedure(text, 'x.md');
  expect(readProcedure(`\uFEFF${text.replaceAll('\n', '\r\n')}`, 'x.md')).toEqual({ procedure, findings: [] });
  expect(readProcedure(text.replaceAll('- [ ] ', '-\t[ ]\t'), 'x.md')).toEqual({ procedure, findings: [] });
});

test('an empty file says what is missing', () => {
  const rules = readProcedure('', 'x.md').findings.map(({ rule }) => rule);
  expect(rules.toSorted()).toEqual(['front-matter-missing', 'no-steps', 'title-missing']);
});

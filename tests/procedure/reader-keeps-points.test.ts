import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseBlocks } from '../../src/procedure/markdown.ts';
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

/** Lines of fenced code and front matter, by the block parser alone. */
function codeLines(text: string): ReadonlySet<number> {
  const lines = new Set<number>();
  const visit = (node: ReturnType<typeof parseBlocks> | ReturnType<typeof parseBlocks>['children'][number]): void => {
    const { start, end } = node.position ?? { start: { line: 0, offset: 0 }, end: { line: -1 } };
    const isFenced = node.type === 'code' && /^(`|~)/.test(text.slice(start.offset));
    if (isFenced || node.type === 'yaml') for (let line = start.line; line <= end.line; line += 1) lines.add(line);
    if ('children' in node) for (const child of node.children) visit(child as never);
  };
  visit(parseBlocks(text));
  return lines;
}

function expectNothingDropped(text: string): void {
  const { procedure, findings } = readProcedure(text, 'x.md');
  const known = new Set([...procedure.steps.flatMap(({ points }) => points), ...findings].map(({ line }) => line));
  const code = codeLines(text);
  for (const [index, line] of text.split('\n').entries()) {
    if (code.has(index + 1) || !/^\s*([-*+]|\d+[.)])\s+\[[ xX]\]\s/.test(line)) continue;
    // An error that stands on an earlier line of the same paragraph is not enough: the line must be answered for, or one that goes on from it.
    if (!linesOfItem(text, index).some((each) => known.has(each)) && !isInsideCodeSpan(text, index))
      throw new Error(`line ${index + 1} was dropped: ${JSON.stringify(line)}`);
  }
}

/** The numbers of the line and of those that follow it without an empty line, a list mark, a heading or a quote between. */
function linesOfItem(text: string, index: number): readonly number[] {
  const lines = text.split('\n');
  const length = lines.slice(index + 1).findIndex((line) => /^\s*($|>|([-*+]|\d+[.)]|#{1,6})(\s|$))/.test(line));
  const end = length < 0 ? lines.length : index + 1 + length;
  return Array.from({ length: end - index }, (_, offset) => index + 1 + offset);
}

/** A code span may run over a line break; what stands in it is code. */
function isInsideCodeSpan(text: string, line: number): boolean {
  const before = text.split('\n').slice(0, line).join('\n');
  const paragraph = before.slice(before.lastIndexOf('\n\n') + 1);
  return paragraph.includes('`');
}

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
    fc.assert(fc.property(fc.oneof(garbage, headed), expectNothingDropped), {
      numRuns: 1500,
      examples: [['---\nprocedure: A\ntitle: B\n---\n\n## S\n\n- [ ] ---\n____-']],
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

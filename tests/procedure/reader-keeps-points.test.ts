import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { expectNothingDropped, fewPieces, garbage, headed } from './any-procedure.ts';

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
        step('- [ ] q\n[x]: ____- [ ] q'),
        step('<pre><!-->\n\n- [ ] q'),
        step('<pre><!--->\n\n- [ ] q'),
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
  const others = [`\uFEFF${text.replaceAll('\n', '\r\n')}`, text.replaceAll('- [ ] ', '-\t[ ]\t')];
  for (const { procedure: other, findings } of others.map((each) => readProcedure(each, 'x.md')))
    expect({ procedure: other, findings }).toEqual({ procedure, findings: [] });
});

test('an empty file says what is missing', () => {
  const rules = readProcedure('', 'x.md').findings.map(({ rule }) => rule);
  expect(rules.toSorted()).toEqual(['front-matter-missing', 'no-steps', 'title-missing']);
});

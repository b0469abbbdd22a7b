import fc from 'fast-check';
import { expect, test } from 'vitest';
import { proofread } from '../../../src/procedure/proofread.ts';
import { garbage, headed } from '../any-procedure.ts';

const TOP = '---\nprocedure: A\ntitle: B\n---\n\n';

test.each([
  ['capitals', `## Sew\n\n${'AB '.repeat(6000)}\n\n- [ ] A\n`],
  ['stops', `## Sew\n\n${'. '.repeat(9000)}\n\n- [ ] A\n`],
  ['spaces', `## Sew\n\nabout${' '.repeat(19_000)}if\n\n- [ ] A\n`],
  ['paragraphs', `${`Line is about ${'x y '.repeat(90)}if so.\n\n`.repeat(2000)}## Sew\n\n- [ ] A\n`],
])('a text of nothing but %s is proofread, and soon', (_, text) => {
  const start = performance.now();
  expect(proofread(TOP + text, 'a.md').procedure.id).toBe('A');
  expect(performance.now() - start).toBeLessThan(10_000);
});

test('any text is proofread without a throw, and each finding points into it', () => {
  fc.assert(
    fc.property(fc.oneof(garbage, headed, fc.string({ unit: 'binary' })), (text) => {
      const lines = text.replace(/\r\n?/g, '\n').split('\n');
      for (const { line, column } of proofread(text, 'a.md').findings) {
        expect(line).toBeLessThanOrEqual(lines.length);
        expect(column).toBeGreaterThan(0);
      }
    }),
    { numRuns: 2000 },
  );
});

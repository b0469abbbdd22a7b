import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { expectNothingDropped, fewPieces, garbage, headed } from './any-procedure.ts';

const numRuns = 100_000;
const binary = fc.string({ unit: 'binary' });
const unpaired = fc.array(fc.nat(0xffff)).map((codes) => String.fromCharCode(...codes));
const frontLine = fc.constantFrom(
  ...[
    'procedure: A',
    'title: B',
    'sets: 2',
    'sets: 1e9',
    'work: step by step',
    'read cautions: once',
    'kit:',
    'values:',
  ],
  ...[
    '  A: front panel',
    '  A: 2 panels',
    '  w: 12',
    '  w: {a: [1',
    '- x',
    '&a b',
    '*a',
    '<<: *a',
    '!!binary x',
    '? [',
    '# note',
    '\t',
  ],
);
const fronted = fc
  .tuple(fc.array(frontLine, { maxLength: 8 }), garbage)
  .map(([lines, text]) => `---\n${lines.join('\n')}\n---\n\n## S\n\n${text}`);
const anyProcedure = fc.oneof(binary, unpaired, garbage, headed, fewPieces, fronted);

test('100,000 texts are read without a throw, and each finding points into the text', () => {
  fc.assert(
    fc.property(anyProcedure, (text) => {
      const { procedure, findings } = readProcedure(text, 'x.md');
      const lines = text.replace(/^\uFEFF/, '').split(/\r\n?|\n/);
      for (const { line, column, rule } of findings) {
        const length = lines[line - 1]?.length ?? -1;
        if (!(line >= 1 && column >= 1 && column <= length + 1)) throw new Error(`${rule} stands at ${line}:${column}`);
      }
      for (const { line, points } of procedure.steps)
        for (const each of [line, ...points.map((point) => point.line)])
          expect(lines.length).toBeGreaterThanOrEqual(each);
    }),
    { numRuns },
  );
});

test('a plain point behind 100,000 texts is read, unless it was left open what it belongs to', () => {
  fc.assert(
    fc.property(fc.oneof(headed, fewPieces, fronted), (before) => {
      const text = `${before}\n\n## Sew\n\n- [ ] Width ____ mm (12)\n`;
      const { procedure, findings } = readProcedure(text, 'x.md');
      const line = text.split('\n').length - 1;
      const points = procedure.steps.flatMap((step) => step.points);
      if (points.some((point) => point.line === line && point.kind === 'reading')) return;
      const errors = findings.filter(({ severity }) => severity === 'error');
      const why = errors.filter((each) => each.line === line || /open|too-/.test(each.rule));
      if (why.length === 0) throw new Error(`lost: ${JSON.stringify(errors.map(({ rule }) => rule))}`);
    }),
    { numRuns },
  );
});

test('no line that looks like a task is dropped from 100,000 texts, as another parser reads them', () => {
  fc.assert(fc.property(fc.oneof(garbage, headed, fewPieces), expectNothingDropped), { numRuns });
});

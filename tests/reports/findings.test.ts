import { expect, test } from 'vitest';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { findingsReport } from '../../src/reports/findings.ts';

const report = (text: string): string =>
  findingsReport(readProcedure(text, 'a.md').findings, new Map([['a.md', text]]));
const text = '---\nprocedure: A\ntitle: B\n---\n\n## S\n\n';

test('a finding shows its place, the line with a mark under it, and the way out', () => {
  expect(report(`${text}- [ ] Width ___ mm\n`)).toBe(
    [
      'a.md:8:13  error  blank-malformed: This looks like a blank and is none.',
      '  8 | - [ ] Width ___ mm',
      '    |             ^',
      '  Write ____ (four underscores) for each blank.',
      '',
      '1 error and 0 warnings in 1 file.',
      '',
    ].join('\n'),
  );
});

test('a long line is cut around the place, and nothing hidden reaches the terminal', () => {
  const shown = report(`${text}${'words '.repeat(40)}\u001b[31m\u202e\n\n- [ ] A\n`);
  expect(shown).not.toMatch(/[\u001b\u202e]/);
  expect(shown.split('\n').every((line) => line.length < 130)).toBe(true);
});

test('no findings, one sentence', () => {
  expect(report(`${text}- [ ] A\n`)).toBe('Nothing to mend in 1 file.\n');
});

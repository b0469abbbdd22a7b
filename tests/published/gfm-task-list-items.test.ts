import { expect, test } from 'vitest';
import { readProcedure } from '../../src/procedure/read-procedure.ts';

/**
 * Source: GitHub Flavored Markdown Spec, version 0.29-gfm (2019-04-06), section 5.3 "Task list items (extension)", examples 279
 * and 280, read in other projects' test suites that quote them. A checked box is a task item there; here it is one too, but a finding, since nobody
 * would be asked.
 */
const read = (example: string): readonly string[] => {
  const { procedure, findings } = readProcedure(
    `---\nprocedure: GFM\ntitle: Spec\n---\n\n## Step\n\n${example}`,
    'x.md',
  );
  const points = procedure.steps.flatMap((step) =>
    step.points.map(({ line, kind, text }) => `${line} ${kind} ${text}`),
  );
  return [...points, ...findings.map(({ line, rule }) => `${line} ${rule}`)].sort();
};

test('example 279: an unchecked and a checked item', () => {
  expect(read('- [ ] foo\n- [x] bar\n')).toEqual(['8 tick foo', '9 box-ticked']);
});

test('example 280: items inside items are task items, and are answered for one by one', () => {
  const example = '- [x] foo\n  - [ ] bar\n  - [x] baz\n- [ ] bim\n';
  expect(read(example)).toEqual(['10 box-ticked', '11 tick bim', '8 box-ticked', '9 point-nested']);
});

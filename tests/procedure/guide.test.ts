import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.ts';
import { proofread } from '../../src/procedure/proofread.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { svg } from '../drawing/svg.ts';
import { wrap } from './wrap.ts';

const guide = readFileSync(new URL('../../procedures/README.md', import.meta.url), 'utf8');
const examples = [...guide.matchAll(/^```markdown( file)?\n([\s\S]*?)^```$/gm)].map(([, isFile, text = '']) => ({
  isFile: isFile !== undefined,
  text,
}));

describe('every example of the guide to writing procedures reads without a finding', () => {
  test('there are examples of everything', () => {
    const kinds = examples.flatMap(({ isFile, text }) =>
      readProcedure(isFile ? text : wrap(text), 'README.md').procedure.steps.flatMap(({ points }) =>
        points.map(({ kind }) => kind),
      ),
    );
    expect([...new Set(kinds)].sort()).toEqual([
      'choice',
      'computed',
      'count',
      'hold point',
      'reading',
      'tick',
      'timed',
      'written',
    ]);
  });
  test.each(examples.filter(({ isFile }) => isFile))(
    'and a whole one is proofread without a finding: $text',
    ({ text }) => {
      expect(proofread(text, 'README.md').findings).toEqual([]);
    },
  );
  test.each(examples)('$text', ({ isFile, text }) => {
    expect(readProcedure(isFile ? text : wrap(text), 'README.md').findings).toEqual([]);
  });
});

test('the parts of its drawing are read, each of the kind that it has', () => {
  const [, inside = ''] = /^```xml\n([\s\S]*?)^```$/m.exec(guide) ?? [];
  const { drawing, findings } = readDrawing(svg(inside), 'README.md');
  expect(findings).toEqual([]);
  expect(drawing.parts.map(({ kind }) => kind)).toEqual(['piece', 'edge', 'notch', 'piece', 'seam']);
});

import { describe, expect, test } from 'vitest';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { CASES } from './cases.ts';
import { placeOfMark, plain } from './mark.ts';
import { wrap } from './wrap.ts';

/** A fragment that lacks its front matter on purpose must not be given one. */
const whole = (rule: string, text: string): string =>
  rule.startsWith('front-matter-m') || text.startsWith('¦---') ? text : wrap(text);

describe('each finding, at its place, and gone when mended', () => {
  test.each(CASES)('%s: %j', (rule, bad, good) => {
    const marked = whole(rule, bad);
    const { findings } = readProcedure(plain(marked), 'lining.md');
    const found = findings.find((finding) => finding.rule === rule);
    expect(findings.map((finding) => finding.rule)).toContain(rule);
    expect(`${found?.line}:${found?.column}`).toBe(placeOfMark(marked));
    expect(found?.mend).toMatch(/[.}]$|^(Add|Write)/);
    const mended = readProcedure(wrap(good), 'lining.md').findings.filter(({ severity }) => severity === 'error');
    expect(mended).toEqual([]);
  });
});

test('what only could mislead is a warning', () => {
  const warned = [
    '- For thick cloth lift the foot\n',
    '![](../media/a.svg)',
    '- Seams: D1, wavy\n',
    '- [ ] Set to 38 ±1.5 mm\n',
  ].flatMap((text) => readProcedure(wrap(text), 'x.md').findings);
  expect(warned.map(({ rule, severity }) => `${rule} ${severity}`)).toEqual([
    'fact-unknown warning',
    'picture-without-words warning',
    'seams-unreadable warning',
    'tick-with-tolerance warning',
  ]);
});

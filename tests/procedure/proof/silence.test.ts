import { expect, test } from 'vitest';
import { proofread } from '../../../src/procedure/proofread.ts';

const LONG = '- [ ] Every one of the four sleeves of this lining lies flat on its own pencil line';

function read(silenced: string, step = `## Fold\n\n${LONG}\n`) {
  const text = `---\nprocedure: A\ntitle: B\n${silenced}---\n\n${step}`;
  const { findings, silenced: quiet } = proofread(text, 'a.md');
  return {
    shown: findings.map(({ rule, line, column, severity }) => `${line}:${column} ${severity} ${rule}`),
    quiet: quiet.map(({ finding, reason }) => `${finding.line} ${finding.rule}: ${reason}`),
  };
}

test('a hint or a warning with a reason is not shown, and its reason is kept', () => {
  expect(read('')).toEqual({ shown: ['8:7 hint line-length'], quiet: [] });
  expect(read('silenced:\n  line-length: the big screen is used here\n')).toEqual({
    shown: [],
    quiet: ['10 line-length: the big screen is used here'],
  });
});

test('an error is not silenced, and trying is one', () => {
  const step = '## Cut the opening\n\n- Cannot be undone\n\n- [ ] Opening cut\n';
  const { shown, quiet } = read('silenced:\n  evidence-before-no-return: nobody looks anyway\n', step);
  expect(quiet).toEqual([]);
  expect(shown).toEqual(['5:3 error silenced-error', '8:4 error evidence-before-no-return']);
});

test.each([
  ['an unknown rule', '  line-lenght: the screen is big\n', ['5:3 error silenced-unknown', '10:7 hint line-length']],
  ['no reason', '  line-length:\n', ['5:3 error silenced-without-reason', '10:7 hint line-length']],
  ['no words in the reason', '  line-length: "-"\n', ['5:3 error silenced-without-reason', '10:7 hint line-length']],
  ['a list for a reason', '  line-length: [a]\n', ['5:3 error silenced-without-reason', '10:7 hint line-length']],
  [
    'nothing to silence',
    '  ambiguous-word: we like it\n',
    ['5:3 warning silenced-for-nothing', '10:7 hint line-length'],
  ],
])('%s', (_, line, shown) => expect(read(`silenced:\n${line}`)).toEqual({ shown, quiet: [] }));

test('what is not rules with reasons is not read', () => {
  expect(read('silenced: line-length\n').shown).toEqual(['4:11 error silenced-unreadable', '9:7 hint line-length']);
});

import { expect, test } from 'vitest';
import { differences } from '../../src/procedure/differences.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';

const text = `---
procedure: T-1
title: T
---

## Sew

> **WARNING** Needle. It goes through your finger. Foot off the treadle.

Raw edges *to* the line.

- [ ] Edges on the line
- [ ] Line to edge ____ ____ mm (312 ±1.5)
- [ ] Shade ____ (**match** / lighter)

## Look

- [ ] Clean
`;

const between = (...changes: readonly (readonly [string, string])[]): readonly string[] => {
  const after = changes.reduce((words, [from, to]) => words.replace(from, to), text);
  const [old, young] = [text, after].map((words) => readProcedure(words, 'T.md').procedure);
  if (!old || !young) throw new Error('two texts');
  return differences(old, young).map(({ what, step, text: said }) => `${step} ${what} ${said}`);
};

test.each<readonly [string, readonly (readonly [string, string])[], readonly string[]]>([
  ['nothing', [], []],
  ['a limit', [['±1.5', '±1']], ['1 changed Line to edge, 310.5 to 313.5 mm → Line to edge, 311 to 313 mm']],
  [
    'places',
    [['____ ____ mm', '____ mm']],
    ['1 changed Line to edge in 2 places, 310.5 to 313.5 mm → Line to edge in 1 place, 310.5 to 313.5 mm'],
  ],
  ['a point more', [['- [ ] Clean', '- [ ] Clean\n- [ ] Label reads ____']], ['2 added Label reads']],
  ['a point less', [['- [ ] Edges on the line\n', '']], ['1 removed Edges on the line']],
  [
    'what is accepted',
    [['**match** / lighter', '**match** / **lighter**']],
    ['1 changed Shade (match / lighter; accepted: match) → Shade (match / lighter; accepted: match / lighter)'],
  ],
  ['words', [['*to* the line', 'on the line']], ['1 changed Raw edges on the line.']],
  [
    'a caution',
    [['Foot off the treadle.', 'Motor off.']],
    [
      '1 added WARNING: Needle. It goes through your finger. Motor off.',
      '1 removed WARNING: Needle. It goes through your finger. Foot off the treadle.',
    ],
  ],
  ['a step', [['## Look', '## Look over']], ['2 added Look over', '2 removed Look']],
  ['a step with a pinned name', [['## Look', '## Look over {#look}']], ['2 changed Look → Look over']],
])('what a hand must know: %s', (_, changes, said) => expect(between(...changes)).toEqual(said));

import { describe, expect, test } from 'vitest';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { wrap } from './wrap.ts';

/** `bad` has the mark `¦` just before the place that the finding points at; `good` is the same thing said rightly. */
type Case = readonly [rule: string, bad: string, good: string];

const front = (lines: string): string => `---\n${lines}\n---\n\n## Count\n\n- [ ] Counted\n`;
const named = (lines: string): string => front(`procedure: LIN-1\ntitle: Lining\n${lines}`);

const CASES: readonly Case[] = [
  // boxes
  ['box-malformed', '¦- [] Edges flat', '- [ ] Edges flat'],
  ['box-malformed', '¦-[ ] Edges flat', '- [ ] Edges flat'],
  ['box-malformed', '¦- [ ]Edges flat', '- [ ] Edges flat'],
  ['box-malformed', '¦- [  ] Edges flat', '* [ ] Edges flat'],
  ['box-malformed', '¦• [ ] Edges flat', '+ [ ] Edges flat'],
  ['box-malformed', '¦[ ] Edges flat', '1. [ ] Edges flat'],
  ['box-malformed', '- [ ] One\n¦-[ ] Two', '- [ ] One\n- [ ] Two'],
  ['box-ticked', '- ¦[x] Edges flat', '- [ ] Edges flat'],
  ['box-ticked', '- ¦[X] Edges flat', '1) [ ] Edges flat'],
  ['box-ticked', '-¦[x] Edges flat', '- [ ] Edges flat'],
  ['box-malformed', '¦- [ ]: Edges flat', '- [the label](label.svg) lies flat\n- [ ] Edges flat'],
  ['box-malformed', '¦- [ ](a) Edges flat', '- [ ] (a) Edges flat'],
  ['box-malformed', '¦- [\u00a0] Edges flat', '- [ ]\u00a0Edges flat'],
  ['box-malformed', '¦– [ ] Edges flat', '- [ ] Edges flat'],
  ['box-malformed', '¦- ☐ Edges flat', '- [ ] Edges flat'],
  ['box-malformed', '¦☐ Edges flat', '- [ ] Edges flat'],
  ['box-malformed', '¦- ( ) Edges flat', '- (a) Edges\n- [ ] Edges flat'],
  ['box-malformed', '¦- [ ) Edges flat', '- [ ] Edges flat'],
  ['box-malformed', '¦- [ Edges flat', '- [ ] Edges flat'],
  ['box-malformed', '¦- \\[ \\] Edges flat', '- [ ] Edges flat'],
  ['box-malformed', '¦- ［ ］ Edges flat', '- [ ] Edges flat'],
  ['box-ticked', '- ¦[x]: Edges flat', '- [ ] Edges flat'],
  ['box-ticked', '- ¦[v] Edges flat', '- [ ] Edges flat'],
  ['box-ticked', '- ¦☑ Edges flat', '- [ ] Edges flat'],
  ['box-ticked', '- ¦(x) Edges flat', '- [ ] Edges flat'],
  ['box-in-text', '- [ ] ¦[x] Edges flat', '- [ ] Edges flat'],
  ['box-in-text', '-- ¦[ ] Edges flat', '- [ ] Edges flat'],
  ['box-in-text', '- [ ] Left flat ¦[ ] Right flat', '- [ ] Left flat\n- [ ] Right flat'],
  ['point-empty', '- [ ]¦\n- [ ] Edges flat', '- [ ] Edges flat'],
  ['point-empty', '- [ ] ¦____ mm (12)', '- [ ] Width ____ mm (12)'],
  ['point-empty', '- [ ] ¦**Hold point**', '- [ ] **Hold point** first of the day'],
  ['point-not-read', 'Then this\n2. ¦[ ] Edges flat', 'Then this\n\n2. [ ] Edges flat'],
  ['point-not-read', 'Words\n\n    - ¦[ ] Edges flat', 'Words\n\n- [ ] Edges flat'],
  ['point-not-read', '<div>\n- ¦[ ] Edges flat\n</div>', '- [ ] Edges flat'],
  ['point-not-read', 'Set it to `5\n2) ¦[ ] Edges` flat', 'Set it to `5`.\n\n- [ ] Edges `flat`'],
  ['point-not-read', 'Words\n\n    ```\n    - ¦[ ] Edges flat\n    ```', '- [ ] Look\n\n```\n- [ ] no point\n```'],
  ['point-nested', '- [ ] Look\n\t- ¦[ ] Edges flat', '-\t[ ]\tLook\n-\t[ ]\tEdges flat'],
  ['point-nested', '- Look:\n  - ¦[ ] Edges flat', '- [ ] Edges flat'],
  ['point-nested', '- [ ] Look\n  - ¦[ ] Edges flat', '- [ ] Look\n- [ ] Edges flat'],
  ['point-in-quote', '> - ¦[ ] Edges flat', '- [ ] Edges flat'],
  ['point-in-table', '| a | b |\n|---|---|\n| x | ¦[ ] |', '| a | b |\n|---|---|\n| x | y |'],
  ['point-in-table', '| a | b |\n|---|---|\n| x | ¦____ |', '| a | b |\n|---|---|\n| x | y |'],
  ['table-in-point', '- [ ]¦ Look\n  | a | b |\n  |---|---|', '- [ ] Look\n\n| a | b |\n|---|---|'],
  [
    'point-outside-step',
    '---\nprocedure: A\ntitle: B\n---\n\n- ¦[ ] Early\n\n## S\n\n- [ ] Late\n',
    '---\nprocedure: A\ntitle: B\n---\n\n## S\n\n- [ ] Late\n',
  ],
  ['point-too-long', `- [ ] ¦${'long '.repeat(150)}`, '- [ ] Short'],
  // blanks
  ['blank-malformed', '- [ ] Width ¦___ mm (12)', '- [ ] Width ____ mm (12)'],
  ['blank-malformed', '- [ ] Width ¦__ mm (12)', '- [ ] Width ________ mm (12)'],
  ['blank-malformed', '- [ ] Widths ____ ____ ¦___ mm', '- [ ] Widths ____ ____ ____ mm'],
  ['blank-malformed', '- [ ] Width ¦_ _ _ _ mm', '- [ ] The __left__ width ____ mm'],
  ['blank-malformed', '- [ ] Width ¦_ mm', '- [ ] The _left_ width, \\_ and all, ____ mm'],
  ['blank-malformed', '- [ ] Width ¦\\_\\_\\_\\_ mm (12)', '- [ ] Width ____ mm (12)'],
  ['blank-malformed', '- [ ] Width ¦`____` mm', '- [ ] Width `w` ____ mm'],
  ['blank-malformed', '- [ ] Width ¦..... mm', '- [ ] Wait ... then look'],
  ['blank-malformed', '- [ ] Width ¦---- mm', '- [ ] Left -- and right -- flat'],
  ['blank-malformed', '- [ ] Width ¦( ) mm', '- [ ] Width ____ mm'],
  ['blank-malformed', '- [ ] Width ¦＿＿＿＿ mm', '- [ ] Width ____mm'],
  ['blank-malformed', '- [ ] Roll\n\n  ¦____', '- [ ] Roll ____'],
  ['blank-malformed', '- [ ] Roll\n\n¦____', '- [ ] Roll ____\n\n---'],
  ['blank-outside-point', '- Roll ¦____', '- [ ] Roll ____'],
  ['blank-outside-point', 'Write the roll here ¦____ now', '- [ ] Roll ____'],
  ['blank-missing', '- [ ] Bore ¦mm (27 +2/-0)', '- [ ] Bore ____ mm (27 +2/-0)'],
  ['blank-missing', '- [ ] `a` ____ mm\n- [ ] Twice `a * 2`¦ = mm', '- [ ] `a` ____ mm\n- [ ] Twice `a * 2` = ____ mm'],
  ['blank-missing', '- [ ] ¦Bore (312 ±1.5 mm)', '- [ ] Bore ____ mm (312±1.5)'],
  ['blank-missing', '- [ ] ¦Bore [27 +2/-0]', '- [ ] Bore ____ mm (27 +2 -0)'],
  ['blank-missing', '- [ ] ¦Shade (**match** / off)', '- [ ] Shade matches (left / right)'],
  ['limit-before-blank', '- [ ] Bore ¦(312 ±1.5) ____ mm', '- [ ] Bore (left) ____ mm (312 +-1.5)'],
  ['unit-before-blank', '- [ ] Bore in ¦mm ____', '- [ ] Roll it came in ____'],
  ['text-between-blanks', '- [ ] Size ____¦ by ____ mm', '- [ ] Size ____ ____ mm'],
  ['several-blanks', '- [ ] Rolls ¦____ ____', '- [ ] Rolls ____'],
  ['several-blanks', '- [ ] Dry ¦____ ____ min', '- [ ] Dry ____ min'],
  // units and limits
  ['unit-unknown', '- [ ] Width ____ ¦mn (12)', '- [ ] Width ____ mm (12)'],
  ['unit-unknown', '- [ ] Roll ____ ¦on the label', '- [ ] Roll on the label ____'],
  ['unit-missing', '- [ ] Pieces ____ ¦(22)', '- [ ] Pieces ____ pcs (22)'],
  ['unit-missing', '- [ ] Width ____ ¦(1/2)', '- [ ] Width ____ in (1/2)'],
  [
    'unit-missing',
    '- [ ] `a` ____ mm\n- [ ] Twice `a * 2` = ¦____',
    '- [ ] `a` ____ mm\n- [ ] Twice `a * 2` = ____ mm',
  ],
  ['unit-missing', '- [ ] Bore ____ ¦(312 ±1.5 mm)', '- [ ] Bore ____ mm (312 ±1.5 mm)'],
  ['bracket-kind', '- [ ] Bore ____ mm ¦[312 ±1.5]', '- [ ] Bore ____ mm (312\u00a0±\u00a01.5)'],
  ['bracket-kind', '- [ ] Shade ____ ¦[match / off]', '- [ ] Shade ____ (match / off)'],
  ['text-after-unit', '- [ ] Bore ____ mm ¦312 ±1.5', '- [ ] Bore ____ in (1½ ±1⁄16)'],
  ['limit-unreadable', '- [ ] Bore ____ mm (¦36–40)', '- [ ] Heat ____ °C (–5 to 5)'],
  ['text-after-limit', '- [ ] Bore ____ (312 ±1.5) ¦mm', '- [ ] Bore ____ mm (312 ±1.5)'],
  ['unit-in-brackets', '- [ ] Width ____ (¦mm)', '- [ ] Width ____ mm'],
  ['text-after-unit', '- [ ] Width ____ mm ¦wide', '- [ ] Width ____ mm'],
  ['limit-unreadable', '- [ ] Width ____ mm (¦about 12)', '- [ ] Width ____ mm (12 ±1)'],
  ['limit-unreadable', '- [ ] Width ____ mm ¦()', '- [ ] Width ____ mm'],
  ['limit-upside-down', '- [ ] Width ____ mm (¦40 to 36)', '- [ ] Width ____ mm (36 to 40)'],
  [
    'limit-upside-down',
    'Words {allowance}.\n\n- [ ] {allowance} and {allowance} ____ mm (¦40 to 36)',
    '- [ ] {allowance} ____ mm (36 to 40)',
  ],
  ['limit-unit', '- [ ] Width ____ mm (¦12 cm)', '- [ ] Width ____ cm (12 cm)'],
  ['number-ambiguous', '- [ ] Length ____ mm (¦1,500)', '- [ ] Length ____ mm (1,5)'],
  ['limit-twice', '- [ ] Width ____ mm (12) ¦(13)', '- [ ] Width ____ mm (12 to 13)'],
  ['text-after-limit', '- [ ] Width ____ mm (12) ¦at the left', '- [ ] Width at the left ____ mm (12).'],
  ['bracket-open', '- [ ] Width ____ mm ¦(12', '- [ ] Width ____ mm (12)'],
  ['bracket-open', '- [ ] Width ____ mm 12¦)', '- [ ] Width ____ mm (12)'],
  // choices
  ['choice-one-option', '- [ ] Shade ____ (¦match)', '- [ ] Shade ____ (match / off)'],
  ['choice-empty-option', '- [ ] Shade ____ (¦match / )', '- [ ] Shade ____ (match/off)'],
  ['choice-unreadable', '- [ ] Shade ____ (¦**a / b** / c)', '- [ ] Shade ____ (**a** / **b** / c)'],
  ['choice-twice', '- [ ] Shade ____ (¦a / A)', '- [ ] Needle ____ (110 / 120)'],
  // hold points
  ['hold-point-with-blank', '- [ ] **Hold point** width ¦____ mm', '- [ ] **Hold point** width'],
  ['hold-point-near-miss', '- [ ] ¦Hold point width looked over', '- [ ] **Hold point** width looked over'],
  ['hold-point-near-miss', '- [ ] ¦**Holdpoint** width', '- [ ] **Hold Point:** width'],
  // names and formulas
  [
    'name-unknown',
    '- [ ] `d1` ____ mm\n- [ ] Off `|d1 - ¦d2|` = ____ mm',
    '- [ ] `d1` ____ mm\n- [ ] Off `|d1 - 3|` = ____ mm',
  ],
  [
    'name-circle',
    '- [ ] A `a` `¦b + 1` = ____ mm\n- [ ] B `b` `a + 1` = ____ mm',
    '- [ ] `a` ____ mm\n- [ ] B `b` `a + 1` = ____ mm',
  ],
  ['name-circle', '- [ ] A `a` `¦a + 1` = ____ mm', '- [ ] A `a` ____ mm'],
  [
    'name-later',
    '- [ ] Off `¦d - 1` = ____ mm\n- [ ] D `d` ____ mm',
    '- [ ] D `d` ____ mm\n- [ ] Off `d - 1` = ____ mm',
  ],
  ['name-twice', '- [ ] One `d` ____ mm\n- [ ] Two ¦`d` ____ mm', '- [ ] One `d` ____ mm\n- [ ] Two `e` ____ mm'],
  ['name-unreadable', '- [ ] One ¦`d-1` ____ mm', '- [ ] One `d_1` ____ mm'],
  [
    'name-not-a-number',
    '- [ ] Roll `r` ____\n- [ ] Off `¦r + 1` = ____ mm',
    '- [ ] Roll `r` ____ mm\n- [ ] Off `r + 1` = ____ mm',
  ],
  [
    'name-several-places',
    '- [ ] D `d` ____ ____ mm\n- [ ] Off `¦d - 1` = ____ mm',
    '- [ ] D `d` ____ mm\n- [ ] Off `d - 1` = ____ mm',
  ],
  [
    'name-of-a-set',
    '## One\n\n- [ ] D `d` ____ mm\n\n## Two\n\n- For the whole bundle\n- [ ] Off `¦d - 1` = ____ mm',
    '## One\n\n- [ ] D `d` ____ mm\n\n## Two\n\n- [ ] Off `d - 1` = ____ mm',
  ],
  [
    'formula-unreadable',
    '- [ ] `d` ____ mm\n- [ ] Off `¦d - ` = ____ mm',
    '- [ ] `d` ____ mm\n- [ ] Off `-(d − 1) × 2 ÷ 3` = ____ mm',
  ],
  ['formula-missing', '- [ ] Off¦ = ____ mm', '- [ ] Off ____ mm'],
  [
    'formula-units',
    '- [ ] `a` ____ mm\n- [ ] `b` ____ kg\n- [ ] Sum `¦a + b` = ____ mm',
    '- [ ] `a` ____ mm\n- [ ] `b` ____ kg\n- [ ] Weight of one `b / a` = ____ kg',
  ],
  [
    'formula-units',
    '- [ ] `a` ____ mm\n- [ ] Sum `¦a + 1` = ____ cm',
    '- [ ] `a` ____ mm\n- [ ] Sum `a + 1` = ____ mm',
  ],
  // ids
  ['id-twice', '- [ ] Width ____ mm\n- [ ] ¦width ____ mm', '- [ ] Width ____ mm\n- [ ] Width ____ mm {#width-again}'],
  ['id-twice', '- [ ] A {#x}\n- [ ] ¦B {#x}', '- [ ] A {#x}\n- [ ] B {#y}'],
  ['id-twice', '## Sew\n\n- [ ] A\n\n## ¦Sew\n\n- [ ] A', '## Sew\n\n- [ ] A\n\n## Sew {#sew-again}\n\n- [ ] A'],
  ['id-missing', '- [ ] ¦?!', '- [ ] ?! {#sure}'],
  ['pin-unreadable', '- [ ] Width ¦{# w}', '- [ ] Width {#w}'],
  ['pin-unreadable', '- [ ] Width ¦{#w} ____ mm', '- [ ] Width ____ mm {#w}'],
  // values
  ['value-unknown', '- [ ] Keep ¦{allowence} free', '- [ ] Keep {allowance} free'],
  ['value-unknown', 'Turn ¦{turn} under.', 'Turn {allowance} under.'],
  ['values-unreadable', named('values:\n  a: ¦[1, 2]'), named('values:\n  a: 1')],
  ['values-unreadable', named('values:\n  a: ¦"x ____"'), named('values:\n  a: "x"')],
  ['values-unreadable', named('values: ¦12'), named('values:\n  a: 12')],
  // cautions
  ['signal-word-unknown', '> ¦**ACHTUNG** Needle. Look out.', '> **WARNING** Needle. Look out.'],
  ['signal-word-unknown', '> ¦**Warning** Needle. Look out.', '> **WARNING:** Needle. Look out.'],
  ['signal-word-unknown', '> ¦**WARN** Needle. Look out.', '> **Key point** keep it flat.'],
  ['signal-word-unknown', '> ¦**NOTE**\n> Needle. Look out.', '> Just words.'],
  ['signal-word-not-bold', '> ¦WARNING Needle. Look out.', '> **WARNING** Needle. Look out.'],
  ['signal-word-not-bold', '> ¦[!WARNING]\n> Needle. Look out.', '> **CAUTION** Needle. Look out.'],
  [
    'caution-after-points',
    '- [ ] Sewn\n\n¦> **WARNING** Needle. Look out.',
    '> **WARNING** Needle. Look out.\n\n- [ ] Sewn',
  ],
  [
    'caution-outside-step',
    '---\nprocedure: A\ntitle: B\n---\n\n¦> **DANGER** Fire.\n\n## S\n\n- [ ] Late\n',
    '---\nprocedure: A\ntitle: B\n---\n\n## S\n\n> **DANGER** Fire.\n\n- [ ] Late\n',
  ],
  ['caution-empty', '> ¦**WARNING**', '> **WARNING** Needle.'],
  ['caution-not-read', '¦**WARNING** Needle. Look out.', '> **WARNING** Needle. Look out.'],
  ['caution-not-read', '¦- > **WARNING** Needle.', '> **NOTICE** Vinyl.'],
  // facts
  ['fact-unknown', '- ¦For the whole bundl\n', '- For the whole bundle\n'],
  ['fact-unknown', '- ¦For thick cloth lift the foot\n', '- Lift the foot for thick cloth\n'],
  ['fact-twice', '- Allowed time: 5 min\n- ¦Allowed time: 6 min\n', '- Allowed time: 5 min\n'],
  ['fact-unreadable', '- ¦Alowed time: 5 min\n', '- Allowed time: 5 min\n'],
  ['fact-unreadable', '- ¦Allowed time 5 min\n', '- allowed time: 1 h 20 min\n'],
  ['fact-unreadable', '- ¦Needs skill:\n', '- Needs skill: top-stitch vinyl\n'],
  ['fact-unreadable', '- ¦Cannot be undone after this\n', '- Cannot be undone.\n'],
  ['fact-nested', '- Note\n  - ¦Cannot be undone\n', '- Note\n\n- Cannot be undone\n'],
  ['allowed-time-unreadable', '- Allowed time: ¦soon\n', '- Allowed time: 90 s\n'],
  ['seams-unreadable', '- Seams: D1 D2, ¦stich 301\n', '- Seams: D1 D2, stitch 301 at 4,0 mm, not visible\n'],
  ['step-unknown', '- If out: back to ¦Sew the sleves\n', '- If out: back to Sew the sleeves\n'],
  [
    'step-later',
    '## One\n\n- If out: back to ¦Two\n\n- [ ] A\n\n## Two\n\n- [ ] B',
    '## One\n\n- [ ] A\n\n## Two\n\n- If out: back to step 1\n\n- [ ] B',
  ],
  // steps and the file
  ['step-without-point', '## ¦One\n\nWords.\n\n## Two\n\n- [ ] B', '## One\n\n- [ ] A\n\n## Two\n\n- [ ] B'],
  ['step-empty', '¦##\n\n- [ ] A', '## One\n\n- [ ] A'],
  ['step-underlined', '- [ ] A\n\n¦Two\n---\n\n- [ ] B', '- [ ] A\n\nTwo\n\n---\n\n- [ ] B'],
  ['heading-near-miss', '- [ ] A\n\n¦##Two\n\n- [ ] B', '- [ ] A\n\n## Two\n\n- [ ] B'],
  ['title-twice', '- [ ] A\n\n¦# Two\n\n- [ ] B', '- [ ] A\n\n### Two\n\n- [ ] B'],
  ['no-steps', '---\nprocedure: A\ntitle: B\n---\n¦', named('')],
  ['fence-open', '- [ ] A\n\n¦```\ncode', '- [ ] A\n\n```\n- [ ] no point\n```'],
  ['comment-open', '- [ ] A\n\n¦<!-- gone', '- [ ] A\n\n<!--\n- [ ] no point\n-->'],
  ['hidden-character', '- [ ] Edges¦\u202e flat', '- [ ] Edges flat'],
  ['hidden-character', '- [ ] Edges¦\ud800 flat', '- [ ] Edges 👍🏽 flat'],
  ['hidden-character', 'Words¦\u0007 here', 'Words\there'],
  ['picture-unreadable', '¦![Sleeves](../media/my file.svg)', '![Sleeves](../media/file.svg#D1,D2)'],
  ['picture-elsewhere', '¦![Sleeves](https://example.org/a.svg)', '![Sleeves](<../media/a b.svg>)'],
  ['picture-elsewhere', '¦![Sleeves](/etc/a.svg)', '![Sleeves](../media/a.svg "Title")'],
  ['picture-without-words', '¦![](../media/a.svg)', '![Sleeves](../media/a.svg)'],
  // front matter
  ['front-matter-missing', '¦## S\n\n- [ ] A\n', named('')],
  ['front-matter-open', '¦---\nprocedure: A\n', named('')],
  ['front-matter-unreadable', named('kit:\n  A: "open¦'), named('kit:\n  A: "closed"')],
  ['front-matter-alias', named('values:\n  a: ¦&x 1'), named('values:\n  a: 1')],
  ['hidden-character', named('values:\n  a: ¦"one\\e[2J"'), named('values:\n  a: "one \\u00bd"')],
  [
    'hidden-character',
    front('procedure: A\ntitle: ¦"half \\ud800"'),
    front('procedure: A\ntitle: "whole \\U0001f9f5"'),
  ],
  ['front-matter-key', named('¦set: 2'), named('sets: 2')],
  ['procedure-missing', front('¦title: B'), front('procedure: A\ntitle: B')],
  ['procedure-name', front('procedure: ¦a/../b\ntitle: B'), front('procedure: a.b-1\ntitle: B')],
  ['title-missing', `¦${front('procedure: A')}`, front('procedure: A\ntitle: B')],
  ['sets', named('sets: ¦two'), named('sets: 2')],
  ['sets', named('sets: ¦0'), named('sets: 1')],
  ['work', named('work: ¦set by step'), named('work: step by step')],
  ['read-cautions', named('read cautions: ¦once'), named('read cautions: once a shift')],
  ['kit-unreadable', named('kit:\n  A: ¦strap × two'), named('kit:\n  A: strap x 2')],
  ['kit-unreadable', named('kit: ¦strap'), named('kit:\n  A: strap')],
  ['kit-pair', named('kit:\n  A: ¦patch (left)'), named('kit:\n  A: patch (left) × 2\n  B: patch (right) × 2')],
];

const plain = (bad: string): string => bad.replace('¦', '');
const placeOfMark = (text: string): string => {
  const lines = text.slice(0, text.indexOf('¦')).split('\n');
  return `${lines.length}:${(lines.at(-1) ?? '').length + 1}`;
};
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

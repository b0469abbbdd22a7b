import fc from 'fast-check';
import { expect, test } from 'vitest';
import { differenceLine } from '../../src/app/difference-words.ts';
import type { Digest } from '../../src/base/brand.ts';
import { differences } from '../../src/procedure/differences.ts';
import { withDigests } from '../../src/procedure/pictures.ts';
import { pointPairs } from '../../src/procedure/point-pairs.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';

const text = `---
procedure: T-1
title: Lining
sets: 2
kit:
  A: front panel
---

What a good lining is.

## Count the kit

- For the whole bundle

- [ ] Pieces ____ pcs (22)
- [ ] Roll of the vinyl ____

## Sew the sleeves

- Allowed time: 12 min
- Seams: D1 D2, stitch 301 at 4.0 mm
- Needs skill: sleeve to line

> **WARNING** Needle. It goes through your finger. Foot off the treadle.

![Sleeves](../media/lining.svg#D1)

Raw edges *to* the line.

- [ ] Edges on the line
- [ ] Line to edge ____ ____ mm (312 ±1.5)
- [ ] Shade ____ (**match** / lighter)
- [ ] Diagonal \`d1\` ____ mm
- [ ] Diagonal \`d2\` ____ mm
- [ ] Out of square \`|d1 - d2|\` = ____ mm (max 4)

## Look it over

- [ ] Clean
- [ ] Label reads ____
`;

const read = (words: string) => readProcedure(words, 'T.md').procedure;

const changed = (...changes: readonly (readonly [string, string])[]): string =>
  changes.reduce((words, [from, to]) => {
    if (!words.includes(from)) throw new Error(`the text has no ${from}`);
    return words.replace(from, to);
  }, text);

const sleeves = text.slice(text.indexOf('## Sew'), text.indexOf('## Look'));
const look = text.slice(text.indexOf('## Look'));

type Case = readonly [string, readonly (readonly [string, string])[], readonly string[]];
const cases: readonly Case[] = [
  ['nothing', [], []],
  ['the title', [['title: Lining', 'title: Lining, front']], ['everywhere, title reworded: Lining → Lining, front']],
  ['the sets', [['sets: 2', 'sets: 3']], ['everywhere, sets in a bundle changed: 2 → 3']],
  [
    'the kit',
    [['A: front panel', 'A: front panel × 2']],
    ['everywhere, kit changed: A front panel → A front panel × 2'],
  ],
  ['a limit, tighter', [['±1.5', '±1']], ['step 2, limit tightened: Line to edge: 310.5 to 313.5 mm → 311 to 313 mm']],
  ['a limit, wider', [['±1.5', '±2']], ['step 2, limit widened: Line to edge: 310.5 to 313.5 mm → 310 to 314 mm']],
  [
    'a limit, elsewhere',
    [['312 ±1.5', '313 ±1.5']],
    ['step 2, limit shifted: Line to edge: 310.5 to 313.5 mm → 311.5 to 314.5 mm'],
  ],
  ['a limit written in another way', [['312 ±1.5', '310.5 to 313.5']], []],
  ['a limit gone', [['mm (312 ±1.5)', 'mm']], ['step 2, limit gone: Line to edge: 310.5 to 313.5 mm']],
  [
    'a limit where there was none',
    [['`d1` ____ mm', '`d1` ____ mm (max 1818)']],
    ['step 2, new limit: Diagonal d1: at most 1818 mm'],
  ],
  [
    'a limit in another unit that is the same',
    [['____ ____ mm (312 ±1.5)', '____ ____ cm (31.2 ±0.15)']],
    ['step 2, point changed: Line to edge, mm → Line to edge, cm'],
  ],
  [
    'places',
    [['____ ____ mm', '____ mm']],
    ['step 2, point changed: Line to edge, places: 2 → Line to edge, places: 1'],
  ],
  [
    'the length of the drawing that a limit is of',
    [['____ ____ mm (312 ±1.5)', '____ ____ mm (312 ±1.5 of D1–D2)']],
    ['step 2, point changed: Line to edge → Line to edge, on the drawing: D1–D2'],
  ],
  [
    'the kind of a point',
    [['- [ ] Clean', '- [ ] Clean ____ (**yes** / no)']],
    ['step 3, point changed: Clean, tick → Clean, choice, *yes* / no'],
  ],
  ['a point more', [['- [ ] Clean', '- [ ] Clean\n- [ ] Tails cut']], ['step 3, new point: Tails cut']],
  ['a point less', [['- [ ] Edges on the line\n', '']], ['step 2, point gone: Edges on the line']],
  [
    'a point in other words',
    [['Edges on the line', 'Raw edges on the line']],
    ['step 2, point reworded: Edges on the line → Raw edges on the line'],
  ],
  [
    'a point at another place',
    [
      ['- [ ] Clean\n', ''],
      ['- [ ] Label reads ____\n', '- [ ] Label reads ____\n- [ ] Clean\n'],
    ],
    ['step 3, point moved: Clean: place 1 → place 2'],
  ],
  [
    'a point in another step',
    [
      ['- [ ] Edges on the line\n', ''],
      ['- [ ] Clean\n', '- [ ] Clean\n- [ ] Edges on the line\n'],
    ],
    ['step 3, point moved here: Edges on the line: step 2 → step 3'],
  ],
  [
    'a step split in two',
    [['- [ ] Diagonal `d1`', '## Measure it\n\n- [ ] Diagonal `d1`']],
    [
      'step 3, new step: Measure it',
      'step 3, point moved here: Diagonal d1: step 2 → step 3',
      'step 3, point moved here: Diagonal d2: step 2 → step 3',
      'step 3, point moved here: Out of square: step 2 → step 3',
    ],
  ],
  [
    'a step joined with another, and a limit tightened on the way',
    [
      [look, ''],
      ['(max 4)', '(max 4)\n- [ ] Clean\n- [ ] Label reads ____'],
      [`- [ ] Line to edge ____ ____ mm (312 ±1.5)\n`, ''],
      [
        '- [ ] Roll of the vinyl ____\n',
        '- [ ] Roll of the vinyl ____\n- [ ] Line to the edge ____ ____ mm (312 ±1)\n',
      ],
    ],
    [
      'step 1, point moved here: Line to the edge: step 2 → step 1',
      'step 1, point reworded: Line to edge → Line to the edge',
      'step 1, limit tightened: Line to the edge: 310.5 to 313.5 mm → 311 to 313 mm',
      'step 2, point moved here: Clean: step 3 → step 2',
      'step 2, point moved here: Label reads: step 3 → step 2',
      'step 3, step gone: Look it over',
    ],
  ],
  [
    'sentences in another order',
    [['Raw edges *to* the line.', 'Raw edges *to* the line. Flat. Raw edges *to* the line.']],
    ['step 2, new words: Flat. Raw edges to the line.'],
  ],
  [
    'what is accepted',
    [['**match** / lighter', '**match** / **lighter**']],
    ['step 2, point changed: Shade, *match* / lighter → Shade, *match* / *lighter*'],
  ],
  [
    'how it is worked out',
    [['|d1 - d2|', '|d2 - d1|']],
    ['step 2, point changed: Out of square, |d1 - d2| → Out of square, |d2 - d1|'],
  ],
  [
    'words',
    [['*to* the line', 'on the line']],
    ['step 2, words reworded: Raw edges to the line. → Raw edges on the line.'],
  ],
  [
    'a caution in other words',
    [['Foot off the treadle.', 'Motor off.']],
    [
      'step 2, caution reworded: WARNING: Needle. It goes through your finger. Foot off the treadle. → WARNING: Needle. It goes through your finger. Motor off.',
    ],
  ],
  [
    'the word of a caution',
    [['**WARNING** Needle', '**CAUTION** Needle']],
    [
      'step 2, caution changed: WARNING: Needle. It goes through your finger. Foot off the treadle. → CAUTION: Needle. It goes through your finger. Foot off the treadle.',
    ],
  ],
  [
    'a caution gone',
    [['> **WARNING** Needle. It goes through your finger. Foot off the treadle.\n', '']],
    ['step 2, caution gone: WARNING: Needle. It goes through your finger. Foot off the treadle.'],
  ],
  ['the allowed time', [['12 min', '10 min']], ['step 2, allowed time changed: 12 min → 10 min']],
  ['no allowed time', [['- Allowed time: 12 min\n', '']], ['step 2, allowed time gone: 12 min']],
  [
    'a skill',
    [['skill: sleeve to line', 'skill: top-stitch']],
    ['step 2, skill needed changed: sleeve to line → top-stitch'],
  ],
  [
    'the mark that it cannot be undone',
    [['- Allowed time: 12 min\n', '- Allowed time: 12 min\n- Cannot be undone\n']],
    ['step 2, new mark that it cannot be undone: cannot be undone'],
  ],
  [
    'a picture',
    [['lining.svg#D1', 'lining.svg#D2']],
    ['step 2, picture changed: Sleeves (../media/lining.svg D1) → Sleeves (../media/lining.svg D2)'],
  ],
  [
    'a step in other words',
    [['## Look it over', '## Look it all over']],
    ['step 3, step reworded: Look it over → Look it all over'],
  ],
  ['a step gone', [[look, '']], ['step 3, step gone: Look it over']],
  ['a step more', [[look, `${look}\n## Roll it\n\n- [ ] Rolled face out\n`]], ['step 4, new step: Roll it']],
  [
    'the order of the steps',
    [
      [sleeves, ''],
      [look, `${look}\n${sleeves}`],
    ],
    ['step 3, step moved: step 2 → step 3'],
  ],
];

test.each(cases)('what a hand must know: %s', (_, changes, said) =>
  expect(differences(read(text), read(changed(...changes))).map((each) => differenceLine(each))).toEqual(said),
);

const mirror = {
  added: 'removed',
  removed: 'added',
  tightened: 'widened',
  widened: 'tightened',
  moved: 'moved',
  'moved here': 'moved here',
  reworded: 'reworded',
  changed: 'changed',
  redrawn: 'redrawn',
  shifted: 'shifted',
} as const;

test.each(cases)('read the other way round, it is told the other way round: %s', (_, changes) => {
  const [before, after] = [read(text), read(changed(...changes))];
  const there = differences(before, after).map(({ about, change }) => `${about} ${mirror[change]}`);
  const back = differences(after, before).map(({ about, change }) => `${about} ${change}`);
  expect(back.sort()).toEqual([...there].sort());
});

test('several changes at once are told as just those', () => {
  const single = cases.filter(([, changes, said]) => changes.length === 1 && said.length === 1);
  fc.assert(
    fc.property(fc.shuffledSubarray([...single], { minLength: 2, maxLength: 4 }), (some) => {
      const places = some.map(([, changes]) => changes[0]?.[0] ?? '');
      fc.pre(places.every((a, i) => places.every((b, j) => i === j || !(a.includes(b) || overlaps(a, b)))));
      const after = changed(...some.flatMap(([, changes]) => changes));
      const kinds = (lines: readonly string[]) =>
        lines.map((line) => line.split(':')[0]?.replace(/^step \d+/, '')).sort();
      const said = differences(read(text), read(after)).map((each) => differenceLine(each));
      expect(kinds(said)).toEqual(kinds(some.flatMap(([, , lines]) => lines)));
    }),
    { numRuns: 200 },
  );
});

/** Whether the two places in the text share a line. */
function overlaps(a: string, b: string): boolean {
  const span = (part: string) => {
    const from = text.lastIndexOf('\n', text.indexOf(part));
    return [from, text.indexOf('\n', text.indexOf(part) + part.trimEnd().length)] as const;
  };
  const [one, other] = [span(a), span(b)];
  return one[0] < other[1] && other[0] < one[1];
}

test('any two texts can be compared, a text with itself has no difference, and a line is one line', () => {
  const lines = text.split('\n');
  fc.assert(
    fc.property(fc.shuffledSubarray(lines), fc.shuffledSubarray(lines), (a, b) => {
      const [one, other] = [read(a.join('\n')), read(b.join('\n'))];
      expect(differences(one, one)).toEqual([]);
      for (const line of differences(one, other).map((each) => differenceLine(each))) expect(line).not.toMatch(/\n/);
    }),
    { numRuns: 300 },
  );
});

test('points are paired across texts, wherever they stand', () => {
  const after = changed(['Edges on the line', 'Raw edges on the line'], ['- [ ] Clean\n', '']);
  const pairs = pointPairs(read(text), read(after));
  expect(pairs).toHaveLength(9);
  expect(pairs.every(({ before: { point: a }, after: { point: b } }) => a.kind === b.kind)).toBe(true);
});

test.each([
  ['Raw edges *to* the line.', 'Raw edges *to* the line. Keep it flat.', 'step 2, new words: Keep it flat.'],
  ['Raw edges *to* the line.', '', 'step 2, words gone: Raw edges to the line.'],
])('of the words only the sentences that differ are told: %s → %s', (from, to, said) =>
  expect(differences(read(text), read(changed([from, to]))).map((each) => differenceLine(each))).toEqual([said]),
);

test('cautions in another order are told', () => {
  const [needle, snips] = ['> **WARNING** Needle. It goes', '> **CAUTION** Snips. They cut. Away from the hand.\n\n'];
  const one = read(changed([needle, `${snips}${needle}`]));
  const other = read(changed(['Raw edges *to* the line.', `${snips}Raw edges *to* the line.`]));
  expect(differences(one, other).map((each) => differenceLine(each))).toEqual([
    'step 2, caution moved: CAUTION: Snips. They cut. Away from the hand.: place 1 → place 2',
  ]);
});

test('two sentences that changed places are told as other words', () => {
  const [flat, tight] = ['Keep it flat. Hold it tight.', 'Hold it tight. Keep it flat.'];
  const one = read(changed(['Raw edges *to* the line.', flat]));
  const other = read(changed(['Raw edges *to* the line.', tight]));
  expect(differences(one, other).map((each) => differenceLine(each))).toEqual([
    `step 2, words reworded: ${flat} → ${tight}`,
  ]);
});

test('a point keeps its id across steps, whatever it says then', () => {
  const pinned = changed(['- [ ] Edges on the line', '- [ ] Edges on the line {#edges}']);
  const moved = pinned
    .replace('- [ ] Edges on the line {#edges}\n', '')
    .replace('- [ ] Clean\n', '- [ ] Nothing sticks out beyond the pencil {#edges}\n- [ ] Clean\n');
  expect(differences(read(pinned), read(moved)).map((each) => differenceLine(each))).toEqual([
    'step 3, point moved here: Nothing sticks out beyond the pencil: step 2 → step 3',
    'step 3, point reworded: Edges on the line → Nothing sticks out beyond the pencil',
  ]);
});

test('a picture that was drawn anew under the same name is told where both are known', () => {
  const drawn = (digest: string) =>
    withDigests(read(text), [{ address: '../media/lining.svg', digest: digest as Digest }]);
  const said = (a: string, b: string) => differences(drawn(a), drawn(b)).map((each) => differenceLine(each));
  expect(said('1', '1')).toEqual([]);
  expect(said('1', '2')).toEqual([
    'step 2, picture redrawn: Sleeves (../media/lining.svg D1) → Sleeves (../media/lining.svg D1)',
  ]);
  expect(differences(read(text), drawn('2'))).toEqual([]);
});

import { expect, test } from 'vitest';
import { columns } from '../../src/base/columns.ts';
import type { WhoRow } from '../../src/reports/who.ts';
import { whoText } from '../../src/reports/who-text.ts';

const checked: WhoRow = {
  ticket: 'B-1042',
  kind: 'checked',
  set: 1,
  step: 4,
  title: 'Sew the sleeves to their lines',
  point: 'M2b: seam on C to its front edge',
  place: 1,
  hand: 'OP-03',
  name: 'Tomas',
  at: '2026-11-20T08:25:07.120+01:00',
  typed: '312',
  value: '312',
  unit: 'mm',
  limit: '310.5 to 313.5 mm',
  verdict: 'within',
  by: null,
  witness: null,
  meaning: 'done',
  struck: null,
  again: false,
  before: null,
  expires: null,
  took: 38.4,
  waited: 0,
  lay: 0,
  clock: null,
  language: null,
  doneAt: null,
  typedBy: null,
  folded: false,
  revision: 'C',
  seq: 325,
};

const told = (...changes: readonly Partial<WhoRow>[]): readonly string[] =>
  whoText(
    changes.map((change) => ({ ...checked, ...change })),
    200,
  );

test('a step is named once, above what was done in it', () => {
  expect(told({}, { seq: 1326, place: 2, value: '313', typed: '313' })).toEqual([
    'B-1042 · rev C · 2026-11-20 · set 1 · step 4, Sew the sleeves to their lines',
    ' 325  08:25  0:38  Tomas  M2b: seam on C to its front edge: 312 mm (310.5 to 313.5 mm)',
    '1326  08:25  0:38  Tomas  M2b: seam on C to its front edge, place 2: 313 mm (310.5 to 313.5 mm)',
  ]);
});

test.each([
  [{ value: '316', typed: '316', verdict: 'above', by: '2.5' }, '316 mm, 2.5 mm above (310.5 to 313.5 mm)'],
  [{ value: '393.7', typed: '15 1/2 in', limit: null }, '393.7 mm; typed 15 1/2 in'],
  [{ value: 'hole', typed: '3', unit: null, limit: 'clean', verdict: 'unacceptable' }, 'hole, unacceptable (clean)'],
  [{ value: 'clean', typed: '1', unit: null, limit: 'clean' }, ': clean'],
  [{ witness: 'Henk', meaning: 'witnessed with PIN' }, 'mm); witnessed with PIN: Henk'],
  [{ struck: 'wrong key' }, '; struck: wrong key'],
  [{ clock: 'set back by 60 s before this' }, "; the station's clock was set back by 60 s before this"],
  [{ again: true }, '; done again later'],
  [{ before: '316 mm (entry 329, Tomas; measured again)' }, '; before: 316 mm (entry 329, Tomas; measured again)'],
  [{ took: 0, waited: 1500.5 }, '; waited 25:00'],
  [{ took: 0, lay: 3725 }, '; lay 1:02:05'],
] as const)('%j is said at the end of its line', (change, end) => {
  expect(told(change).at(-1)?.endsWith(end)).toBe(true);
});

test('what is no check says what it is', () => {
  const held = {
    kind: 'held',
    place: null,
    unit: null,
    limit: null,
    verdict: null,
    value: 'H-031: off its line',
  } as const;
  expect(told(held).at(-1)).toBe('325  08:25  0:38  Tomas  held: H-031: off its line');
  expect(told({ ...held, kind: 'settled', meaning: 'settled with PIN' }).at(-1)).toMatch(/off its line; with PIN$/);
  expect(told({ ...held, kind: 'resumed', value: null }).at(-1)).toBe('325  08:25  0:38  Tomas  taken up again');
});

test('long words go on below, and a text from outside cannot break out of its line', () => {
  const note = `the needle\u001b[2J broke\nand ${'both pieces were found '.repeat(6)}at once`;
  const lines = whoText([{ ...checked, kind: 'noted', value: note }], 60);
  expect(lines.every((line) => columns(line) <= 60)).toBe(true);
  expect(
    lines
      .slice(2)
      .map((line) => line.slice(2))
      .join(' ')
      .replace(/\s+/g, ' '),
  ).toContain('both pieces were found at once');
  expect(lines.join('')).not.toContain('\u001b');
});

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../../src/drawing/read-drawing.ts';
import { ELSEWHERE } from '../../../src/procedure/proof/elsewhere.ts';
import { RULES } from '../../../src/procedure/proof/rules.ts';
import { EXPLAINED, RULE_NAMES } from '../../../src/procedure/proof/table.ts';
import { proofread } from '../../../src/procedure/proofread.ts';
import { readProcedure } from '../../../src/procedure/read-procedure.ts';
import { svg } from '../../drawing/svg.ts';
import { CASES } from '../cases.ts';
import { placeOfMark, plain } from '../mark.ts';
import { wrap } from '../wrap.ts';

/** What lacks the lines at the top, or has them wrong, must not be given others. */
const whole = (name: string, text: string): string =>
  name.startsWith('front-matter-m') || text.startsWith('¦---') ? text : wrap(text);

/** The drawing of an example, by whatever address. */
const shown = (drawing: string | undefined) => (address: string) =>
  drawing === undefined ? undefined : readDrawing(svg(drawing), address);

describe.each(EXPLAINED.filter(({ elsewhere }) => elsewhere === ''))(
  '$name',
  ({ name, severity, bad, good, drawing }) => {
    const places = (text: string, shows: string | undefined): readonly string[] =>
      proofread(text, 'example.md', shown(shows)).findings.flatMap((finding) =>
        finding.rule === name ? [`${finding.line}:${finding.column} ${finding.severity}`] : [],
      );

    test('finds the place meant in its bad example, and no other', () => {
      const marked = whole(name, bad);
      expect(marked.match(/¦/g)).toHaveLength(1);
      expect(places(plain(marked), drawing?.bad)).toEqual([`${placeOfMark(marked)} ${severity}`]);
    });

    test('finds nothing in its good example', () => expect(places(wrap(good), drawing?.good)).toEqual([]));

    test('its good example is read without an error', () => {
      const { findings } = readProcedure(wrap(good), 'example.md');
      expect(findings.filter((each) => each.severity === 'error')).toEqual([]);
    });
  },
);

const SHOWN_BY: ReadonlyMap<string, string> = new Map([
  ['file-unreadable', 'commands/proofread.test.ts'],
  ['procedure-twice', 'commands/proofread.test.ts'],
  ['picture-missing', 'commands/in-the-room.test.ts'],
  ['picture-unshown', 'commands/read-draft.test.ts'],
  ['sheet-alone', 'commands/proofread.test.ts'],
  ['sheet-differs', 'commands/sheets.test.ts'],
  ['too-long', 'procedure/reader-keeps-points.test.ts'],
]);

test('a rule that no text can show says why, and a test shows it otherwise', () => {
  const others = EXPLAINED.filter(({ elsewhere }) => elsewhere !== '');
  expect(others.length).toBeLessThan(EXPLAINED.length / 20);
  for (const { name, elsewhere, bad, good } of others) {
    expect(elsewhere).toMatch(/^[A-Z].+\.$/);
    expect(bad + good).toBe('');
    const file = SHOWN_BY.get(name) ?? '';
    expect(readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8')).toContain(name);
  }
});

describe.each(RULES)('$name', ({ name, bad, good, drawing }) => {
  test('both examples are read without an error of the reading', () => {
    const errors = [plain(bad), good].flatMap((text) => readProcedure(wrap(text), 'example.md').findings);
    expect(errors).toEqual([]);
  });

  test('each finding says what was found, why it matters here, and what to write', () => {
    const found = proofread(plain(wrap(bad)), 'example.md', shown(drawing?.bad)).findings.find(
      ({ rule }) => rule === name,
    );
    expect(found?.message).toMatch(/^.+\.$/);
    expect(found?.mend).toMatch(/[.]$/);
    expect(found?.found).not.toBe('');
  });

  test('the drawing of the good example is read without a finding', () =>
    expect(shown(drawing?.good)('panel.svg')?.findings ?? []).toEqual([]));
});

test('every rule of the list is applied, kept by the reading, or said to be kept elsewhere', () => {
  const all = Array.from({ length: 44 }, (_, index) => `L${String(index + 1).padStart(2, '0')}`);
  const known = new Set([...EXPLAINED.flatMap(({ from }) => from), ...ELSEWHERE.keys()]);
  expect(all.filter((id) => !known.has(id))).toEqual([]);
  expect([...known].filter((id) => !all.includes(id))).toEqual([]);
});

test('names are plain words, each there once, with a reason', () => {
  expect(RULE_NAMES.filter((name) => !/^[a-z]+(?:-[a-z]+)*$/.test(name))).toEqual([]);
  expect(new Set(RULE_NAMES).size).toBe(RULE_NAMES.length);
  expect(EXPLAINED.filter(({ why, source }) => !why.endsWith('.') || source === '')).toEqual([]);
});

test('whatever the reading finds can be explained, with the severity it has', () => {
  const wrong = CASES.flatMap(
    ([, bad]) => readProcedure(plain(bad.startsWith('¦---') ? bad : wrap(bad)), 'x.md').findings,
  ).filter(({ rule, severity }) => EXPLAINED.find(({ name }) => name === rule)?.severity !== severity);
  expect(wrong).toEqual([]);
});

test('every name of a rule that stands in the code is in the table', () => {
  const folder = new URL('../../../src/', import.meta.url);
  const files = ['procedure', 'commands'].flatMap((under) =>
    readdirSync(new URL(`${under}/`, folder), { recursive: true, encoding: 'utf8' }).map((name) => `${under}/${name}`),
  );
  const names = files.flatMap((file) => {
    if (!file.endsWith('.ts')) return [];
    const text = readFileSync(new URL(file, folder), 'utf8');
    return [...text.matchAll(/\b(?:rule: |say\()\s*'([a-z-]+)'/g)].map(([, name = '']) => name);
  });
  expect(names.length).toBeGreaterThan(60);
  expect([...new Set(names)].filter((name) => !RULE_NAMES.includes(name))).toEqual([]);
});

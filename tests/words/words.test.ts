import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { columns } from '../../src/base/columns.ts';
import { languages } from '../../src/base/language.ts';
import { keymaps } from '../../src/keys/keymap.ts';
import { english } from '../../src/words/english.ts';
import { loadWords } from '../../src/words/load.ts';
import { saying } from '../../src/words/say.ts';

const others = languages.filter((language) => language !== 'en');
const placeholders = (text: string): readonly string[] => (text.match(/\{\w+\}/g) ?? []).sort();
const source = new URL('../../src/', import.meta.url);
const code = ['app', 'bundle', 'keys', 'measure', 'procedure', 'reports', 'screens', 'commands']
  .flatMap((folder) =>
    readdirSync(new URL(`${folder}/`, source), { recursive: true, encoding: 'utf8' }).map(
      (name) => `${folder}/${name}`,
    ),
  )
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => readFileSync(new URL(name, source), 'utf8'))
  .join('\n');

test('no message is there twice', () => expect(new Set(english).size).toBe(english.length));

test('every message is used somewhere', () => {
  const quoted = (words: string): boolean =>
    ["'", '"', '`'].some((mark) => code.includes(`${mark}${words}${mark}`)) ||
    new RegExp(`^\\s*${words}: `, 'm').test(code);
  expect(english.filter((words) => !quoted(words))).toEqual([]);
});

const SAME_IN_SPANISH: readonly string[] = ['Supervisor: {text}', 'supervisor', 'error'];

test.each(others)('%s has every message, in its own words, with the same values in it', async (language) => {
  const catalogue = await loadWords(language);
  if (!catalogue) throw new Error('no catalogue');
  expect(Object.keys(catalogue).sort()).toEqual([...english].sort());
  for (const words of english) {
    expect(catalogue[words].trim(), words).not.toBe('');
    expect(placeholders(catalogue[words]), words).toEqual(placeholders(words));
    expect(catalogue[words], words).not.toMatch(/\p{C}|\s{2}|^\s|\s$/u);
    // What is typed stays as it is: commands, names of keys, units.
    for (const kept of words.match(/`[^`]+`|\b15 1\/2 in\b|\b31\.2 cm\b|\besc\b/g) ?? [])
      expect(catalogue[words], words).toContain(kept);
  }
  const same = english.filter((words) => catalogue[words] === words && /[a-z]{4}/.test(words.replace(/\{\w+\}/g, '')));
  expect(same.filter((words) => !SAME_IN_SPANISH.includes(words))).toEqual([]);
});

test.each(others)('the words of a key are short enough for its legend: %s', async (language) => {
  const catalogue = await loadWords(language);
  const long = Object.values(keymaps)
    .flat()
    .map(({ words }) => catalogue?.[words] ?? words)
    .filter((words) => columns(words) > 30);
  expect([...new Set(long)]).toEqual([]);
});

test('a message is said with its values, in English without a catalogue, and hostile values stay values', async () => {
  expect(saying(null)('set {set} of {sets}', { set: 1, sets: 2 })).toBe('set 1 of 2');
  expect(saying(await loadWords('es'))('set {set} of {sets}', { set: 1, sets: 2 })).toBe('juego 1 de 2');
  expect(saying(await loadWords('zh-Hans'))('ON HOLD')).toBe('已扣留');
  expect(saying(null)('{ticket} is not begun.', { ticket: '{sets} $& __proto__' })).toBe(
    '{sets} $& __proto__ is not begun.',
  );
});

/** Files whose refusals go to whoever verifies a ledger or writes a procedure. */
const OF_COMMANDS = /^(?:bundle\/(?:replay|entries)|app\/(?:check-ledger|understood)|measure\/limit)\.ts$/;

/** Said only to whoever types a command, which speaks English. */
const ONLY_BY_COMMANDS = [
  'hand-words',
  'hand-id',
  'hand-taken',
  'key-same',
  'title-missing',
  'author-unknown',
  'own-text',
  'release-same',
  'no-such-revision',
  'ticket-name',
  'ticket-taken',
  'sets',
  'roll-name',
  'gauge-words',
  'pin-own-first',
  'skill-words',
  'skill-level',
  'copy-supervisor',
  'keeper',
  'reason-missing',
];

test('every refusal that a screen can meet can be said in every language', () => {
  const text = ['bundle', 'app', 'measure']
    .flatMap((folder) => readdirSync(new URL(`${folder}/`, source)).map((name) => `${folder}/${name}`))
    .filter((name) => !OF_COMMANDS.test(name))
    .map((name) => readFileSync(new URL(name, source), 'utf8'))
    .join('\n');
  const known = new Set<string>(english);
  const said = [...text.matchAll(/refuse\(\s*'([a-z-]+)',\s*(?:'((?:[^'\\]|\\.)*)'|`)/g)];
  expect(said.length).toBeGreaterThan(80);
  const missing = said.filter(([, , words]) => words === undefined || !known.has(words.replaceAll("\\'", "'")));
  expect(
    [...new Set(missing.map(([, rule]) => rule))].filter((rule) => !ONLY_BY_COMMANDS.includes(rule ?? '')),
  ).toEqual([]);
});

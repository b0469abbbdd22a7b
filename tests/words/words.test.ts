import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { columns } from '../../src/base/columns.ts';
import { languages } from '../../src/base/language.ts';
import { keymaps } from '../../src/keys/keymap.ts';
import { english } from '../../src/words/english.ts';
import { loadWords } from '../../src/words/load.ts';
import { saying } from '../../src/words/say.ts';
import { literals } from './literals.ts';

const others = languages.filter((language) => language !== 'en');
const placeholders = (text: string): readonly string[] => (text.match(/\{\w+\}/g) ?? []).sort();
const source = new URL('../../src/', import.meta.url);
const filesIn = (...folders: readonly string[]): readonly string[] =>
  folders
    .flatMap((folder) =>
      readdirSync(new URL(`${folder}/`, source), { recursive: true, encoding: 'utf8' }).map(
        (name) => `${folder}/${name}`,
      ),
    )
    .filter((name) => /\.tsx?$/.test(name));
const code = filesIn(
  'app',
  'bundle',
  'keys',
  'measure',
  'procedure',
  'reports',
  'screens',
  'commands',
  'picture',
  'raster',
)
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
  const text = [...filesIn('bundle', 'app', 'measure'), 'commands/edit-files.ts']
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

/** What stands in the code of the screens and of what they show, in words, and is not said to anybody in them: names of modes and requests, what is typed, and symbols of units. */
const NAMES =
  `go back|keep on|open at desk|form answer|form choice|form words|value begun|hands over|never mind|paper time|pin asked|page up|
page down|one key|wrong key|lock of another|own lock|not opened|handed over|moved here|if out|this step|read caution|read changes|start clock|
make ticket|take key|fit bobbin|use thread|set pin|fail pin|set skill|set language|check gauge|not asked|how often cautions are read|go back REASON|hold REASON|set {}|set |{} min|{} h {} min`
    .replaceAll('\n', '')
    .split('|');

/** Words that go into the ledger as they are, whoever reads them. */
const RECORDED = [
  'the station had locked itself',
  'the station had locked itself, and {} signed on',
  'worked out from a struck reading: {}',
];

/** What a station says when it cannot go on, to whoever looks after it; the program’s own slips; and what `verify` and commands say. */
const NOT_OF_SCREENS =
  /^(?:bundle\/(?:replay|entries|keeper|decide-room|decide-people|decide-print)|app\/(?:check-ledger|understood|read-entries|room-ledger|effect))\.ts$/;

test('whatever a screen shows in words is in the catalogues', () => {
  const known = new Set<string>(english);
  const left = filesIn('app', 'bundle', 'screens')
    .filter((name) => !NOT_OF_SCREENS.test(name))
    .flatMap((name) =>
      literals(readFileSync(new URL(name, source), 'utf8'))
        .filter((text) => !known.has(text) && ![...NAMES, ...RECORDED].includes(text) && isSaid(text))
        .map((text) => `${name}: ${text}`),
    );
  expect(left).toEqual([]);
});

/** Two words, or one that begins a sentence or stands beside a value. */
function isSaid(text: string): boolean {
  const words = text.match(/[A-Za-z]{3,}/g) ?? [];
  return words.length > 1
    ? /[A-Za-z] +[A-Za-z]/.test(text)
    : /^ *[A-Z][a-z]+\b|\{\}|^ | $/.test(text) && words.length > 0;
}

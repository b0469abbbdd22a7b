import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { oneLine } from '../../src/base/text.ts';
import { canonicalText } from '../../src/ledger/canonical.ts';
import type { Json } from '../../src/ledger/entry.ts';
import { keyIn } from '../../src/storage/station-key.ts';
import { practiceRoom, program, quietEnv } from '../playthrough/lining.ts';
import { startTerminal } from '../screens/real-terminal.ts';
import { headOf, put, resign, textOf } from '../tamper/forger.ts';

/** A title for the window, an emptied screen, words turned around, what nobody sees, a colour, a new line and a tag. */
const EVIL = '\x1b]0;own\x07\x1b[2J\u202eX\u200b\u009b31m\u2028\u{e0041}';
/** What a terminal would obey, and what would hide or turn words. */
const OBEYED = /[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200b\u2028-\u202e\u2060-\u2069\ufeff\ufff9]|[\u{e0000}-\u{e007f}]/u;
/** Members with a shape of their own: with anything else in them an entry is refused before it is shown. */
const SHAPED = new Set(
  [
    'key',
    'salt',
    'hash',
    'digest',
    'understood',
    'from',
    'to',
    'changedFrom',
    'role',
    'language',
    'verdict',
    'as',
    'expires',
  ].concat(['fit', 'after', 'for']),
);
const hostile = (member: string, words: string): string => {
  if (SHAPED.has(member) || words === '') return words;
  return `${member === 'ticket' ? '../../' : ''}${words}${EVIL}`;
};
const bent = (value: Json, member = ''): Json => {
  if (typeof value === 'string') return hostile(member, value);
  if (Array.isArray(value)) return value.map((each) => bent(each, member));
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([name, each]) => [name, bent(each, name)]));
};

let room: ReturnType<typeof practiceRoom>;
beforeAll(() => {
  room = practiceRoom();
  const db = new DatabaseSync(join(room.folder, '.walkfoot', 'ledger.db'));
  const guards = db.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").all();
  for (const { name } of guards) db.exec(`DROP TRIGGER ${name}`);
  db.exec('BEGIN');
  for (let seq = 0; seq <= headOf(db); seq++) {
    const entry = JSON.parse(textOf(db, seq));
    put(db, seq, canonicalText({ ...entry, hand: hostile('hand', entry.hand), body: bent(entry.body) }));
  }
  const key = keyIn(join(room.folder, '.walkfoot', 'station.key'), 'SEW-1').find();
  if (!key) throw new Error('the practice room has no key');
  resign(db, key);
  db.exec('COMMIT');
  for (const { sql } of guards) db.exec(String(sql));
  db.close();
});
afterAll(() => room.remove());

function walkfoot(input: string, ...args: readonly string[]) {
  const { stdout, stderr, status } = spawnSync(process.execPath, [program, ...args, '--room', room.folder], {
    cwd: join(room.folder, 'media'),
    env: quietEnv(),
    encoding: 'utf8',
    input,
    maxBuffer: 64_000_000,
  });
  expect((stdout + stderr).replaceAll('\r\n', '\n'), args.join(' ')).not.toMatch(OBEYED);
  return { code: status, out: stdout, err: stderr };
}

const ticket = hostile('ticket', 'B-1042');

const commands: readonly (readonly [code: number, ...args: string[]])[] = [
  [0, 'who'],
  [0, 'who', '--json'],
  [0, 'who', '--csv'],
  [0, 'who', '--repeated'],
  [0, 'who', ticket],
  [0, 'who', ticket, '--step', '1', '--text'],
  [0, 'hand', 'list'],
  [0, 'hand', 'list', '--json'],
  [0, 'station'],
  [1, 'verify'],
  [0, 'sew', hostile('ticket', 'B-1041'), '--hand', 'Ines', '--plain'],
  [0, 'sew', hostile('ticket', 'B-1047'), '--hand', 'Ines', '--plain'],
];

test.each(commands.map(([code, ...args]) => [oneLine(args.join(' ')), code, args] as const))(
  'a ledger with hidden characters in each of its words: %s',
  (_, code, args) => {
    const answer = walkfoot('', ...args);
    expect(answer.code).toBe(code);
    if (args[0] !== 'station' && !args.includes('--json')) expect(answer.out + answer.err).toContain('␛]0;own␇');
  },
);

test('on the screen they are marks, too', async () => {
  const terminal = startTerminal({
    command: process.execPath,
    args: [program, '--room', room.folder],
    columns: 120,
    rows: 40,
  });
  await terminal.waitFor('␛]0;own␇');
  terminal.type('Ines');
  await terminal.press('\r');
  await terminal.waitFor(/Ines␛/);
  expect(terminal.bytes()).not.toMatch(/\x1b\]0;own|[\u009b\u200b\u2028\u202e\u{e0041}]/u);
  terminal.type('\x03');
  expect((await terminal.exited).code).toBe(0);
});

test('a receipt of a bundle that is named after another place is written here all the same', () => {
  const around = (): readonly string[] => readdirSync(join(room.folder, '..'), { recursive: true, encoding: 'utf8' });
  const before = new Set(around());
  expect(walkfoot('', 'receipt', ticket).code).toBe(0);
  const made = around().filter((name) => !before.has(name) && !name.includes('.walkfoot/'));
  expect(made).toHaveLength(1);
  expect(made[0]).toMatch(/^room\/media\/\.\.-\.\.-B-1042[\p{L}\p{N}._-]*\.receipt$/u);
});

import { chmodSync, mkdirSync, readFileSync, renameSync, rmdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, it, onTestFinished } from 'vitest';
import { type LedgerStore, StoreTrouble } from '../../src/ledger/ledger-store.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { draft } from '../storage/ledger-contract.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { expectWhole } from './expect-whole.ts';
import { makeReadOnly, mounted } from './mounted.ts';
import { startWriter } from './writer.ts';

/** Any user but the one the tests run as; root may write whatever its mode says. */
const NOBODY = process.getuid?.() === 0 ? 65_534 : undefined;

it('a ledger locked for longer than the wait', async () => {
  const { file, ledger } = await filled();
  const impatient = openLedger(file, { station: 'table-1', waitMs: 30 });
  const other = new DatabaseSync(file);
  other.exec('BEGIN IMMEDIATE');
  await expectTrouble(impatient.append(0, [draft('checked')]), 'in use by another program that does not let go');
  expect(await ledger.head(), 'reading goes on').toBe(0);
  other.exec('ROLLBACK');
  other.close();
  expect((await impatient.append(0, [draft('checked')])).outcome).toBe('appended');
  await impatient.close();
});

it('a ledger locked for a while: who waits for it holds nothing else up', async () => {
  const { file, ledger } = await filled();
  const other = new DatabaseSync(file);
  other.exec('BEGIN IMMEDIATE');
  const appended = ledger.append(0, [draft('checked')]);
  // Were the program held up, nobody would come to this line before the wait is over and the append refused.
  const kept = ledger.keep([]);
  other.exec('COMMIT');
  other.close();
  await kept;
  expect((await appended).outcome).toBe('appended');
});

it('a ledger locked while it is opened', async () => {
  const { file, ledger } = await filled();
  await ledger.close();
  const other = new DatabaseSync(file);
  other.exec('PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE');
  expectTroubleNow(() => openLedger(file, { station: 'table-1', waitMs: 30 }), 'in use by another program');
  other.close();
});

it('a file-size limit reached while writing', async () => {
  const file = join(tempFolder(), 'ledger.db');
  const writer = startWriter({ file, count: 'forever', shell: 'ulimit -f 400' });
  expect(await writer.ended).toBe(2);
  expect(writer.trouble()).toMatch(/^The disk does not take what is written to .*: check that it has room/);
  expect(writer.acknowledged.size).toBeGreaterThan(20);
  await expectWhole(file, writer.acknowledged);
  await expectGoesOn(file);
});

it('a full disk', async (context) => {
  const folder = mounted(context, 'size=600k');
  const file = join(folder, 'ledger.db');
  const ballast = join(folder, 'ballast');
  writeFileSync(ballast, Buffer.alloc(200_000));
  const writer = startWriter({ file, count: 'forever' });
  expect(await writer.ended).toBe(2);
  expect(writer.trouble()).toMatch(/^There is no room left on the disk of .*: make space/);
  expect(writer.acknowledged.size).toBeGreaterThan(20);
  rmSync(ballast);
  await expectWhole(file, writer.acknowledged);
  await expectGoesOn(file);
});

it('a disk full from the start', async (context) => {
  const folder = mounted(context, 'size=8k');
  const writer = startWriter({ file: join(folder, 'ledger.db') });
  expect([await writer.ended, writer.trouble()]).toEqual([2, expect.stringMatching(/no room left|does not take/)]);
});

it('a disk set to read-only', async (context) => {
  const folder = mounted(context, 'size=2m');
  const file = join(folder, 'ledger.db');
  await (await filled(file)).ledger.close();
  makeReadOnly(folder);
  const writer = startWriter({ file });
  expect([await writer.ended, writer.trouble()]).toEqual([
    2,
    expect.stringMatching(/is on a disk that is set to read-only/),
  ]);
  const fresh = startWriter({ file: join(folder, 'new.db') });
  expect([await fresh.ended, fresh.trouble()]).toEqual([
    2,
    expect.stringMatching(/is on a disk that is set to read-only/),
  ]);
});

it.each([
  ['a folder that may only be read', 0o555, 0o644],
  ['a file that may only be read', 0o777, 0o444],
  ['a folder that may not even be looked into', 0o700, 0o600],
])('%s', async (_, folderMode, fileMode) => {
  const folder = join(tempFolder(), 'room');
  mkdirSync(folder);
  const file = join(folder, 'ledger.db');
  await (await filled(file)).ledger.close();
  chmodSync(join(folder, '..'), 0o755);
  chmodSync(file, fileMode);
  chmodSync(folder, folderMode);
  const writer = startWriter({ file, user: NOBODY });
  const ended = [await writer.ended, writer.trouble()];
  chmodSync(folder, 0o700);
  expect(ended).toEqual([2, expect.stringMatching(/^You may not write or read .*: ask whoever/)]);
  expect(statSync(file).size, 'nothing was touched').toBeGreaterThan(0);
});

it('a missing folder', () => {
  expectTroubleNow(() => openLedger(join(tempFolder(), 'gone', 'ledger.db'), { station: 'table-1' }), 'is not there');
});

it('a folder where the ledger should be', () => {
  const folder = tempFolder();
  expectTroubleNow(() => openLedger(folder, { station: 'table-1' }), 'is a folder where a file should be');
});

it.each(['-wal', '-shm'])('a folder where a file of SQLite’s own should be (%s)', async (end) => {
  const { file, ledger } = await filled();
  await ledger.close();
  mkdirSync(file + end);
  const appended = async () => {
    const again = openLedger(file, { station: 'table-1' });
    return again.append(0, [draft('checked')]).finally(() => again.close());
  };
  await expectTrouble(appended(), `${file}${end} is a folder where a file should be: move it away.`);
  rmdirSync(file + end);
  expect((await appended()).outcome).toBe('appended');
});

it('a folder moved away while the ledger is in use', async () => {
  const folder = join(tempFolder(), 'room');
  mkdirSync(folder);
  const { ledger } = await filled(join(folder, 'ledger.db'));
  renameSync(folder, `${folder}-old`);
  await expectTrouble(ledger.append(0, [draft('checked')]), 'was moved or replaced while it was in use');
  renameSync(`${folder}-old`, folder);
  expect((await ledger.append(0, [draft('checked')])).outcome).toBe('appended');
});

it.each(['-wal', '-shm'])('a file SQLite keeps beside the ledger deleted while it is in use (%s)', async (end) => {
  const { file, ledger } = await filled();
  rmSync(`${file}${end}`);
  await expectTrouble(ledger.append(0, [draft('checked')]), 'was moved or replaced while it was in use');
  await ledger.close();
  const again = openLedger(file, { station: 'table-1' });
  expect(await again.head(), 'what had been recorded is there').toBe(0);
  await again.close();
});

it.each<[string, string | Buffer]>([
  ['words', 'These are somebody’s notes, and no ledger at all.'.repeat(100)],
  ['a picture', Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), Buffer.alloc(5_000, 7)])],
])('a file of %s in the place of the ledger', (_, content) => {
  const file = join(tempFolder(), 'ledger.db');
  writeFileSync(file, content);
  expectTroubleNow(() => openLedger(file, { station: 'table-1' }), 'is no ledger, or its beginning is damaged');
  expect(readFileSync(file)).toEqual(Buffer.from(content));
});

it.each([
  ["another program's database", 'CREATE TABLE songs (title TEXT)', 'belongs to another program'],
  [
    "another program's database with its own id",
    'PRAGMA application_id = 7; PRAGMA user_version = 1',
    'belongs to another',
  ],
])('%s', (_, sql, words) => {
  const file = join(tempFolder(), 'ledger.db');
  change(file, sql);
  const before = readFileSync(file);
  expectTroubleNow(() => openLedger(file, { station: 'table-1' }), words);
  expect(readFileSync(file), 'nothing was touched').toEqual(before);
});

it.each([
  ['a newer walkfoot', 'PRAGMA user_version = 99', /written by a newer walkfoot \(ledger version 99.*update walkfoot/],
  ['a missing trigger', 'DROP TRIGGER entries_no_update', /Somebody altered how the ledger .* is built/],
  ['a trigger more', 'CREATE TRIGGER x AFTER INSERT ON entries BEGIN SELECT 1; END', /Somebody altered/],
  ['a missing index', 'DROP INDEX entries_by_hand', /Somebody altered/],
])('a ledger with the mark of %s', async (_, sql, sentence) => {
  const { file, ledger } = await filled();
  await ledger.close();
  change(file, sql);
  expectTroubleNow(() => openLedger(file, { station: 'table-1' }), sentence);
});

it("another station's ledger", async () => {
  const { file } = await filled();
  expectTroubleNow(
    () => openLedger(file, { station: 'table-2' }),
    /belongs to station table-1, but walkfoot.yaml says table-2: put the station's own name back/,
  );
});

it.each([
  ['an entry whose words were changed', `UPDATE entries SET text = replace(text, 'checked', 'chucked')`],
  [
    'an entry whose words and place were changed',
    `UPDATE entries SET seq = 5, text = replace(text, '"seq":0', '"seq":5')`,
  ],
  ['an entry whose place was changed', 'PRAGMA ignore_check_constraints = ON; UPDATE entries SET seq = 5'],
  ['an entry whose leaf was changed', 'UPDATE entries SET leaf = zeroblob(32)'],
])('%s by a program that took the protection off and put it back', async (_, sql) => {
  const { file, ledger } = await filled();
  await ledger.append(0, [draft('checked')]);
  const db = new DatabaseSync(file);
  const trigger = db.prepare("SELECT sql FROM sqlite_schema WHERE name = 'entries_no_update'").get()?.sql;
  db.exec(`DROP TRIGGER entries_no_update; ${sql} WHERE seq = 0; ${trigger}`);
  db.close();
  await expectTrouble(ledger.read({}), /^Entry \d of the ledger .* is damaged or was changed: stop work/);
});

/** A ledger with one entry. */
async function filled(file = join(tempFolder(), 'ledger.db')) {
  const ledger = openLedger(file, { station: 'table-1' });
  onTestFinished(() => ledger.close());
  await ledger.append(-1, [draft('checked')]);
  return { file, ledger };
}

function change(file: string, sql: string): void {
  const db = new DatabaseSync(file);
  db.exec(sql);
  db.close();
}

async function expectGoesOn(file: string): Promise<void> {
  const ledger: LedgerStore = openLedger(file, { station: 'table-1' });
  const head = await ledger.head();
  expect((await ledger.append(head, [draft('noted')])).outcome).toBe('appended');
  await ledger.close();
}

async function expectTrouble(work: Promise<unknown>, words: string | RegExp): Promise<void> {
  const trouble = await work.then(
    () => undefined,
    (error: unknown) => error,
  );
  expectSentence(trouble, words);
}

function expectTroubleNow(work: () => unknown, words: string | RegExp): void {
  let trouble: unknown;
  try {
    work();
  } catch (error) {
    trouble = error;
  }
  expectSentence(trouble, words);
}

function expectSentence(trouble: unknown, words: string | RegExp): void {
  expect(trouble).toBeInstanceOf(StoreTrouble);
  const message = trouble instanceof StoreTrouble ? trouble.message : '';
  expect(message).toMatch(words);
  expect(message, 'one sentence').toMatch(/^\S.*[^.]\.$/);
}

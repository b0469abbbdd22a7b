import { statSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import fc from 'fast-check';
import { expect, it, onTestFinished } from 'vitest';
import type { Draft, Json } from '../../src/ledger/entry.ts';
import { digestOf } from '../../src/ledger/leaf.ts';
import type { LedgerStore } from '../../src/ledger/ledger-store.ts';
import { memoryLedger } from '../../src/ledger/memory-ledger.ts';
import { selectEntries } from '../../src/storage/select-entries.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { draft, ledgerContract } from './ledger-contract.ts';
import { tempFolder } from './temp-folder.ts';

ledgerContract('SQLite', () => {
  let file = '';
  const reopen = async () => openLedger(file, { station: 'table-1' });
  return {
    open: () => {
      file = join(tempFolder(), 'ledger.db');
      return reopen();
    },
    reopen,
  };
});

it('keeps its file in WAL with an application id and a version', async () => {
  const { db } = await filled();
  const pragma = (name: string) => db.prepare(`PRAGMA ${name}`).get()?.[name];
  expect([pragma('journal_mode'), pragma('application_id'), pragma('user_version')]).toEqual(['wal', 0x574b4654, 1]);
});

it.each([
  "UPDATE entries SET text = replace(text, 'checked', 'chucked') WHERE seq = 1",
  'DELETE FROM entries WHERE seq = 2',
  'DELETE FROM entries',
  'INSERT OR REPLACE INTO entries (seq, text, leaf) SELECT 1, text, leaf FROM entries WHERE seq = 1',
  `INSERT INTO entries (seq, text, leaf) VALUES (7, '{"seq":7}', zeroblob(32))`,
  `INSERT INTO entries (seq, text, leaf) VALUES (3, '{"seq":4}', zeroblob(32))`,
  `INSERT INTO entries (seq, text, leaf) VALUES (3, '{"seq":3}', 'short')`,
  'UPDATE kept SET name = 1',
  'DELETE FROM kept',
  "UPDATE about SET station = 'table-2'",
  'DELETE FROM about',
])('refuses another program that tries: %s', async (sql) => {
  const { db, ledger } = await filled();
  const before = await ledger.read({});
  expect(() => db.exec(sql)).toThrow();
  expect(await ledger.read({})).toEqual(before);
});

it('does not let another program put other bytes under a digest it keeps', async () => {
  const { db, ledger, picture } = await filled();
  db.exec("INSERT OR REPLACE INTO kept SELECT digest, 'other', x'00' FROM kept");
  expect((await ledger.kept(picture))?.name).toBe('media/a.svg');
});

it.each([
  [{ ticket: 'B-1041' }, 'entries_by_ticket'],
  [{ hand: 'OP-02' }, 'entries_by_hand'],
  [{ kinds: ['opened', 'finished'] }, 'entries_by_kind'],
  [{ ticket: 'B-1041', kinds: ['checked'] }, 'entries_by_ticket'],
  [{ ticket: 'B-1041', after: 5 }, 'entries_by_ticket'],
  [{ ticket: 'B-1041', hand: 'OP-02', kinds: ['checked'], after: 5 }, 'entries_by_ticket'],
  [{ hand: 'OP-02', kinds: ['checked'], after: 5 }, 'entries_by_hand'],
  [{ after: 5 }, 'INTEGER PRIMARY KEY'],
])('looks %o up in %s', async (filter, index) => {
  const { db } = await filled();
  const { sql, values } = selectEntries(filter);
  const plan = db
    .prepare(`EXPLAIN QUERY PLAN ${sql}`)
    .all(...values)
    .map(({ detail }) => String(detail))
    .filter((detail) => detail.includes(' entries '));
  expect(plan).toEqual([expect.stringContaining(index)]);
  expect(plan[0]).toMatch(/^SEARCH/);
});

it('sees at once what another connection wrote', async () => {
  const { ledger, file } = await filled();
  const other = openLedger(file, { station: 'table-1' });
  onTestFinished(() => other.close());
  await other.append(await other.head(), [draft('noted')]);
  expect(await ledger.head()).toBe(3);
  expect((await ledger.append(2, [draft('late')])).outcome).toBe('moved');
});

it('leaves one file when the last one closes it', async () => {
  const { db, ledger, file } = await filled();
  db.close();
  await ledger.close();
  expect(statSync(`${file}-wal`, { throwIfNoEntry: false })).toBeUndefined();
});

it('agrees with the memory ledger over any sequence of calls', async () => {
  const folder = tempFolder();
  let round = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(call, { maxLength: 12 }), async (calls) => {
      const memory = memoryLedger('table-1');
      round += 1;
      const sqlite = openLedger(join(folder, `${round}.db`), { station: 'table-1' });
      try {
        for (const each of calls) expect(await each(sqlite)).toEqual(await each(memory));
        expect(await sqlite.read({})).toEqual(await memory.read({}));
      } finally {
        await sqlite.close();
      }
    }),
    { numRuns: 60 },
  );
});

type Call = (ledger: LedgerStore) => Promise<unknown>;

const words = fc.oneof(fc.constantFrom('B-1', 'B-2', 'OP-1', ''), fc.string({ unit: 'binary', maxLength: 6 }));
const anyDraft: fc.Arbitrary<Draft> = fc.record({
  at: fc.constant('2026-11-25T10:42:07.120+01:00'),
  hand: words,
  kind: fc.constantFrom('opened', 'checked'),
  body: fc
    .tuple(fc.dictionary(words, fc.jsonValue()), fc.option(fc.oneof(words, fc.jsonValue())))
    .map(([body, ticket]) => ({
      ...(body as Record<string, Json>),
      ...(ticket === null ? {} : { ticket: ticket as Json }),
    })),
});
const call: fc.Arbitrary<Call> = fc.oneof(
  fc.tuple(fc.integer({ min: -1, max: 1 }), fc.array(anyDraft, { maxLength: 3 })).map(
    ([off, drafts]): Call =>
      async (ledger) =>
        ledger.append((await ledger.head()) + Math.max(0, off), drafts),
  ),
  fc
    .record(
      { ticket: words, hand: words, kinds: fc.subarray(['opened', 'checked']), after: fc.integer({ min: -1, max: 9 }) },
      { requiredKeys: [] },
    )
    .map(
      (filter): Call =>
        (ledger) =>
          ledger.read(filter),
    ),
);

/** A ledger of three entries and a picture, with a second connection that keeps to no rules of ours. */
async function filled() {
  const file = join(tempFolder(), 'ledger.db');
  const ledger = openLedger(file, { station: 'table-1' });
  await ledger.append(-1, [draft('opened', { ticket: 'B-1041' }), draft('checked'), draft('finished')]);
  const bytes = Buffer.from('<svg/>');
  const picture = digestOf(bytes);
  await ledger.keep([{ digest: picture, name: 'media/a.svg', bytes }]);
  const db = new DatabaseSync(file);
  onTestFinished(async () => {
    if (db.isOpen) db.close();
    await ledger.close();
  });
  return { file, ledger, db, picture };
}

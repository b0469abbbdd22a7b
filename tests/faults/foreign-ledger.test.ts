import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, it } from 'vitest';
import { StoreTrouble } from '../../src/ledger/ledger-store.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { draft } from '../storage/ledger-contract.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { check } from '../tamper/signed-room.ts';

/** What opening the file as a ledger, and checking it, come to. */
async function told(file: string): Promise<{ readonly opened: string; readonly checked: string }> {
  const report = check(file);
  const checked = typeof report === 'string' ? report : (report.fault?.what ?? 'intact');
  try {
    await openLedger(file, { station: 'table-1', waitMs: 30 }).close();
    return { opened: 'as a ledger', checked };
  } catch (error) {
    if (error instanceof StoreTrouble) return { opened: error.message, checked };
    throw error;
  }
}

it.each<[string, (file: string) => void, RegExp]>([
  ['a folder', (file) => mkdirSync(file), /is a folder where a file should be: move it away\.$/],
  ['a pipe', (file) => void spawnSync('mkfifo', [file]), /is no file and holds no ledger: move it away/],
  ['a link to a device', (file) => symlinkSync('/dev/zero', file), /is no file and holds no ledger: move it away/],
  ['a text', (file) => writeFileSync(file, 'our ledger\n'.repeat(500)), /is no ledger, or its beginning is damaged/],
])(
  '%s in the place of the ledger is told at once, when it is opened and when it is checked',
  async (_, make, words) => {
    const file = join(tempFolder(), 'ledger.db');
    make(file);
    const { opened, checked } = await told(file);
    expect(opened).toMatch(words);
    expect(checked).toBe(opened);
  },
);

/** Whoever reads from this waits for ever. */
const ENDLESS = 'WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n) SELECT';

it.each<[string, string, RegExp, RegExp]>([
  [
    'with another schema',
    'PRAGMA application_id = 0; CREATE TABLE songs (title)',
    /belongs to another/,
    /belongs to another/,
  ],
  [
    'with another program’s mark',
    'PRAGMA application_id = 7',
    /belongs to another program/,
    /belongs to another program/,
  ],
  [
    'with our mark and a version before the first',
    'PRAGMA user_version = 0',
    /is damaged: stop work/,
    /^entry 0 .* is not in the shape/,
  ],
  [
    'whose checkpoints are a view that never ends',
    `DROP TABLE checkpoints; CREATE VIEW checkpoints AS ${ENDLESS} i AS size, 'x' AS note FROM n`,
    /Somebody altered how the ledger/,
    /altered how the file is built/,
  ],
  [
    'whose station is a view that never ends',
    `DROP TABLE about; CREATE VIEW about AS ${ENDLESS} 'table-1' AS station FROM n WHERE i < 0`,
    /Somebody altered how the ledger/,
    /altered how the file is built/,
  ],
  [
    'whose entries are a view that never ends',
    `DROP TABLE entries; CREATE VIEW entries AS ${ENDLESS} i AS seq, 'x' AS text, x'00' AS leaf FROM n WHERE i < 0`,
    /Somebody altered how the ledger/,
    /altered how the file is built/,
  ],
  [
    'with a trigger that empties it at the next entry',
    'CREATE TRIGGER z AFTER INSERT ON entries BEGIN DELETE FROM kept; END',
    /Somebody altered how the ledger/,
    /altered how the file is built/,
  ],
])('a ledger made by somebody else, %s, is refused and left as it is', async (_, sql, opened, checked) => {
  const file = join(tempFolder(), 'ledger.db');
  const ledger = openLedger(file, { station: 'table-1' });
  await ledger.append(-1, [draft('noted')]);
  await ledger.close();
  const db = new DatabaseSync(file);
  db.exec(`PRAGMA journal_mode = DELETE; ${sql}`);
  db.close();
  const before = readFileSync(file);
  const found = await told(file);
  expect(found.opened).toMatch(opened);
  expect(found.checked).toMatch(checked);
  expect(Buffer.compare(recorded(before), recorded(readFileSync(file))), 'nothing was written').toBe(0);
});

/** The bytes but for the two in the head by which SQLite turns its log on. */
const recorded = (bytes: Buffer): Buffer => {
  const copy = Buffer.from(bytes);
  copy.fill(0, 18, 20).fill(0, 24, 28).fill(0, 92, 100);
  return copy;
};

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { cuts, flips, otherBytes } from './any-damage.ts';
import { type Damaged, toDamage } from './flipped.ts';
import { tampered } from './signed-room.ts';

let folder = '';
let ledger: Damaged;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'flip-'));
  ledger = await toDamage(folder);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('the file as it is, is unharmed', async () =>
  expect(await ledger.expectFoundOrUnharmed(ledger.bytes)).toBe('unharmed'));

test('a bit turned over anywhere is found, or changes nothing that was recorded', () => flips(ledger, 150));

test('a byte put in the place of another is found, or changes nothing that was recorded', () =>
  otherBytes(ledger, 150));

test('a file cut off anywhere is found', () => cuts(ledger, 40));

test('an emptied file is found, although a new ledger may be begun in it', () =>
  expect(ledger.check(Buffer.alloc(0))).toMatchObject({ fault: { entry: null, rule: 'file' } }));

/** A copy of the ledger that lacks these entries. */
function without(which: string): string {
  const file = join(folder, 'whole.db');
  writeFileSync(file, ledger.bytes);
  return tampered(file, (db) => db.exec(`DELETE FROM entries WHERE ${which}`));
}

test('a ledger whose end is hidden by damage is not written on', () => {
  expect(() => openLedger(without('seq > 16'), { station: 'SEW-1' })).toThrow(/is damaged: stop work/);
});

test('a ledger with an entry missing is not read as if it were whole', async () => {
  const gapped = openLedger(without('seq = 11'), { station: 'SEW-1' });
  await expect(gapped.read({})).rejects.toThrow(/is damaged: stop work/);
  await expect(gapped.read({ after: 4 })).rejects.toThrow(/is damaged: stop work/);
  expect(await gapped.read({ after: 11 })).toHaveLength(9);
  await gapped.close();
});

/** Every place behind these words in the file; some are left over in bytes that SQLite does not use any more. */
const endsOf = (words: string): readonly number[] => {
  const { bytes } = ledger;
  const ends: number[] = [];
  for (let at = bytes.indexOf(words); at >= 0; at = bytes.indexOf(words, at + 1))
    ends.push(at + Buffer.byteLength(words));
  return ends;
};

test.each([
  ['the mark between two members of an entry', '"hand":"OP-02"'],
  ['whose an entry is, in the index by hands', 'OP-02'],
  ['a name in the statements of the file', 'checkpoints (size'],
  ['another name in the statements of the file', 'only_row = 1),\n  station'],
  ['the words of a procedure', 'title:'],
  ['a signature', '— SEW-1 '],
])('%s, changed in its last letter, is found', async (_, words) => {
  const outcomes: string[] = [];
  for (const end of endsOf(words)) {
    const changed = Buffer.from(ledger.bytes);
    changed[end - 1] = (changed[end - 1] ?? 0) ^ 1;
    outcomes.push(await ledger.expectFoundOrUnharmed(changed));
  }
  expect(outcomes).toContain('found');
});

test('an entry that is no JSON any more is named', () => {
  const changed = Buffer.from(ledger.bytes);
  changed[(endsOf('"hand":"OP-02","kind":"held"')[0] ?? 0) - 1] = 0x20;
  expect(ledger.check(changed)).toMatchObject({ fault: { entry: 15, rule: 'entry-json' } });
});

import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect } from 'vitest';
import type { LedgerReport } from '../../src/app/check-ledger.ts';
import type { Digest } from '../../src/base/brand.ts';
import { type EntryFilter, type LedgerStore, StoreTrouble } from '../../src/ledger/ledger-store.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { check, ines, signedRoom, ticket } from './signed-room.ts';

/** A ledger file to be damaged in copies, and what must come out of each. */
export interface Damaged {
  readonly bytes: Buffer;
  /** What checking a file of these bytes says. */
  check(changed: Uint8Array): LedgerReport | string;
  /**
   * Checking these bytes tells of a fault, or all that was recorded is what it was. Whoever opens them as a ledger is told of a
   * trouble or reads the right entries; of those looked up by digest, ticket or hand some may be missing where checking tells of a fault.
   */
  expectFoundOrUnharmed(changed: Uint8Array): Promise<'found' | 'unharmed'>;
}

/** A signed room's ledger with all of its log in the one file. */
export async function toDamage(folder: string): Promise<Damaged> {
  const { file } = await signedRoom(folder);
  const db = new DatabaseSync(file);
  db.exec('PRAGMA wal_checkpoint(TRUNCATE)');
  db.close();
  const recorded = recordedIn(file);
  const read = await readBack(file);
  const copy = join(folder, 'copy.db');
  const checkCopy = (changed: Uint8Array): LedgerReport | string => {
    for (const end of ['', '-wal', '-shm']) rmSync(`${copy}${end}`, { force: true });
    writeFileSync(copy, changed);
    return check(copy);
  };
  return {
    bytes: readFileSync(file),
    check: checkCopy,
    expectFoundOrUnharmed: async (changed) => {
      const report = checkCopy(changed);
      const isFound = typeof report === 'string' || report.fault !== null;
      if (!isFound) expect(recordedIn(copy), 'what is said to be intact').toEqual(recorded);
      const again = await readBack(copy);
      if (again.all) expect(again.all, 'what is read in silence').toEqual(read.all);
      for (const asked of questions) {
        const answer = again[asked];
        if (answer) expect(read[asked], 'what is looked up').toEqual(expect.arrayContaining([...answer]));
        if (answer && !isFound) expect(answer).toEqual(read[asked]);
      }
      return isFound ? 'found' : 'unharmed';
    },
  };
}

const questions = ['all', 'kept', 'ofTicket', 'ofHand', 'ofAnother', 'ofBoth'] as const;

/** All that a person recorded and the program signed, as it lies in the file. */
const recordedIn = (file: string): readonly unknown[] => {
  const db = new DatabaseSync(file, { readOnly: true });
  try {
    return ['seq, text, leaf FROM entries', 'digest, bytes FROM kept', 'size, note FROM checkpoints'].map((what) =>
      db.prepare(`SELECT ${what} ORDER BY 1`).all(),
    );
  } finally {
    db.close();
  }
};

/** What each question is answered; undefined where a trouble was told instead. */
async function readBack(file: string) {
  const ledger = await orTrouble(async () => openLedger(file, { station: 'SEW-1' }));
  const texts = (filter: EntryFilter): Promise<readonly string[] | undefined> =>
    orTrouble(async () => (await ledger?.read(filter))?.map(({ text }) => text));
  try {
    return {
      ofBoth: await texts({ ticket, hand: ines, kinds: ['checked', 'struck', 'noted'] }),
      ofTicket: await texts({ ticket }),
      ofHand: await texts({ hand: ines }),
      ofAnother: await texts({ hand: 'OP-03' }),
      all: await texts({}),
      kept: await orTrouble(() => keptIn(ledger)),
    };
  } finally {
    await ledger?.close();
  }
}

async function keptIn(ledger: LedgerStore | undefined): Promise<readonly string[] | undefined> {
  if (!ledger) return undefined;
  const kept: string[] = [];
  for (const { entry } of await ledger.read({ kinds: ['released'] }))
    for (const digest of [entry.body.digest, entry.body.understood]) {
      const text = await ledger.kept(digest as Digest);
      if (text) kept.push(Buffer.from(text.bytes).toString());
    }
  return kept;
}

async function orTrouble<T>(work: () => Promise<T>): Promise<T | undefined> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof StoreTrouble) return undefined;
    throw error;
  }
}

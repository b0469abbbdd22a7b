import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { checkLedger, type Elsewhere, type LedgerReport } from '../../src/app/check-ledger.ts';
import type { HandId, TicketId } from '../../src/base/brand.ts';
import type { Command } from '../../src/bundle/command.ts';
import { next } from '../../src/bundle/next.ts';
import { proofFor } from '../../src/commands/demo/stage.ts';
import type { KeyPlace } from '../../src/ledger/key-place.ts';
import { StoreTrouble } from '../../src/ledger/ledger-store.ts';
import { newSigningKey, type SigningKey } from '../../src/ledger/note-key.ts';
import { openLedgerBytes } from '../../src/storage/ledger-file.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { smallProcedure, workroom } from '../app/workroom.ts';

export const ines = 'OP-02' as HandId;
const vera = 'V-01' as HandId;
export const ticket = 'B-1' as TicketId;

/** A ledger file of some thirty entries: hands, a release, and one bundle with a hold and a pause; signed several times. */
export async function signedRoom(folder: string): Promise<{ readonly file: string; readonly key: SigningKey }> {
  const file = join(folder, 'ledger.db');
  const key = newSigningKey('SEW-1');
  const keys: KeyPlace = { find: () => key, make: () => key, put: () => {} };
  const store = openLedger(file, { station: 'SEW-1' });
  const { ledger, clock } = await workroom(smallProcedure, { store, keys, signed: true });
  const happens = async (command: Command): Promise<void> => {
    clock.pass(7);
    const done = await ledger.attempt(ticket, command, proofFor(ledger, ticket, command));
    if (!done.ok) throw new Error(`${command.do}: ${done.error.message}`);
  };
  /** Reads the caution that is wanted now, or answers the point. */
  const goesOn = async (typed: string): Promise<void> => {
    const playing = await ledger.playing(ticket);
    if (!playing.ok) throw new Error(playing.error.message);
    const wanted = next(playing.value.procedure, ledger.room(), playing.value.bundle, ines);
    if (wanted.want !== 'caution' && wanted.want !== 'point') throw new Error(`${wanted.want} is wanted`);
    const { set, step } = wanted.at;
    const here = { hand: ines, set, step: step.id };
    if (wanted.want === 'caution') return happens({ do: 'read caution', ...here, caution: wanted.number });
    return happens({ do: 'check', ...here, point: wanted.point.id, place: wanted.place, typed });
  };
  await happens({ do: 'open', hand: ines });
  for (const typed of ['4', 'match', 'a caution', '', '312', '316']) await goesOn(typed);
  await happens({ do: 'hold', hand: ines, about: 'point', reason: 'line is off' });
  await happens({
    do: 'settle',
    hand: vera,
    hold: 'H-001',
    how: { as: 'concession', limit: 'one lining', expires: '2030-01-01' },
    reason: 'in the tuck',
  });
  await happens({ do: 'note', hand: ines, text: 'went on' });
  await happens({ do: 'pause', hand: ines });
  await happens({ do: 'resume', hand: ines });
  await happens({ do: 'note', hand: ines, text: 'not signed yet' });
  await store.close();
  return { file, key };
}

/** What recomputing this file comes to; a file that can't be read is a fault of the file. */
export function check(file: string, elsewhere: Elsewhere = {}): LedgerReport | string {
  try {
    const bytes = openLedgerBytes(file);
    try {
      return checkLedger(bytes, elsewhere, () => {});
    } finally {
      bytes.close();
    }
  } catch (error) {
    if (error instanceof StoreTrouble) return error.message;
    throw error;
  }
}

/** A copy of the file in which somebody who knows SQLite did this: the guards were taken off and put back. */
export function tampered(file: string, deed: (db: DatabaseSync) => void): string {
  const copy = `${file}.${copies++}`;
  copyFileSync(file, copy);
  const db = new DatabaseSync(copy);
  const guards = db.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").all();
  for (const { name } of guards) db.exec(`DROP TRIGGER ${name}`);
  deed(db);
  for (const { sql } of guards) db.exec(String(sql));
  db.close();
  return copy;
}
let copies = 0;

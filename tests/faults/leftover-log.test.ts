import { copyFileSync, existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { roomLedger } from '../../src/app/room-ledger.ts';
import { openCheckpoint } from '../../src/ledger/checkpoint.ts';
import { type LedgerStore, StoreTrouble } from '../../src/ledger/ledger-store.ts';
import { verifierOf } from '../../src/ledger/note-key.ts';
import { openLedgerBytes } from '../../src/storage/ledger-file.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { draft } from '../storage/ledger-contract.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { check, ines, signedRoom, ticket } from '../tamper/signed-room.ts';

/** As a power cut leaves them: the ledger's file and, where there is one, the log beside it. */
function copyAsItLies(file: string, copy: string): void {
  for (const end of ['', '-wal']) if (existsSync(file + end)) copyFileSync(file + end, copy + end);
}

test('the log lost after a power cut: what the file holds is whole and goes on, and a checkpoint kept elsewhere misses the rest', async () => {
  const { file, key } = await signedRoom(tempFolder());
  const store = openLedger(file, { station: 'SEW-1' });
  const before = (await store.read({})).map(({ text }) => text);
  const keys = { find: () => key, make: () => key, put: () => {} };
  const ledger = await roomLedger(store, () => ({ ms: Date.UTC(2026, 10, 25, 12), offset: 60 }), { keys });
  for (const text of ['one', 'two', 'three'])
    expect((await ledger.attempt(ticket, { do: 'note', hand: ines, text })).ok).toBe(true);
  const note = await store.seal(key);
  const lost = `${file}.lost`;
  copyFileSync(file, lost);
  await store.close();

  const again = openLedger(lost, { station: 'SEW-1' });
  expect((await again.read({})).map(({ text }) => text)).toEqual(before);
  await again.close();
  expect(check(lost)).toMatchObject({ fault: null, entries: before.length });
  const checkpoint = openCheckpoint(note, verifierOf(key));
  if (!checkpoint.ok) throw new Error(checkpoint.error.message);
  expect(check(lost, { since: { note, checkpoint: checkpoint.value } })).toMatchObject({
    fault: { rule: 'history', what: expect.stringMatching(/the end was cut off/) },
  });
  expect(check(file, { since: { note, checkpoint: checkpoint.value } })).toMatchObject({ fault: null });
});

/** How many entries had been written each time the file and its log were copied. */
const WRITTEN = [40, 90, 260, 300, 420, 560, 570];
const kinds = ['noted', 'checked', 'paused'] as const;
const entry = (n: number) => ({
  ...draft(kinds[n % 3] ?? 'noted'),
  hand: `OP-0${n % 4}`,
  body: { ticket: `B-${n % 5}`, n, words: 'x'.repeat((n * 37) % 900) },
});
const lookups = [{ ticket: 'B-1' }, { hand: 'OP-02' }, { kinds: ['noted'] }] as const;

test('a copy of the ledger put back beside a log of another day: refused, or a whole beginning of it; if a lookup misses any, the checking says why', async () => {
  const file = join(tempFolder(), 'ledger.db');
  let ledger = openLedger(file, { station: 'table-1' });
  let n = 0;
  for (const [day, until] of WRITTEN.entries()) {
    for (; n < until; n++) await ledger.append(n - 1, [entry(n)]);
    copyAsItLies(file, `${file}.${day}`);
    if (day % 3 !== 2) continue;
    await ledger.close();
    ledger = openLedger(file, { station: 'table-1' });
  }
  const written = (await ledger.read({})).map(({ text }) => text);
  await ledger.close();

  const outcomes = { refused: 0, beginnings: 0 };
  const days = [...WRITTEN.keys()];
  for (const [day, other] of days.flatMap((a) => days.map((b) => [a, b] as const))) {
    if (day === other || !existsSync(`${file}.${other}-wal`)) continue;
    const mixed = `${file}.mixed`;
    for (const end of ['-wal', '-shm']) rmSync(mixed + end, { force: true });
    copyFileSync(`${file}.${day}`, mixed);
    copyFileSync(`${file}.${other}-wal`, `${mixed}-wal`);
    const read = await readAll(mixed);
    if (read === 'refused') outcomes.refused += 1;
    else {
      expect(read.all, `copy ${day}, log ${other}`).toEqual(written.slice(0, read.all.length));
      if (read.isMissed) expect(troubleOf(mixed), `copy ${day}, log ${other}`).toBeDefined();
      outcomes.beginnings += 1;
    }
  }
  expect(outcomes.refused).toBeGreaterThan(0);
  expect(outcomes.beginnings).toBeGreaterThan(0);
});

async function readAll(file: string) {
  let ledger: LedgerStore | undefined;
  try {
    ledger = openLedger(file, { station: 'table-1' });
    const all = await ledger.read({});
    let isMissed = false;
    for (const lookup of lookups) {
      const found = await ledger.read(lookup);
      const there = all.filter(
        ({ entry: { body, hand, kind } }) =>
          ('ticket' in lookup && body.ticket === lookup.ticket) ||
          ('hand' in lookup && hand === lookup.hand) ||
          ('kinds' in lookup && lookup.kinds.some((each) => each === kind)),
      );
      isMissed ||= found.length !== there.length;
    }
    return { all: all.map(({ text }) => text), isMissed };
  } catch (error) {
    if (error instanceof StoreTrouble) return 'refused';
    throw error;
  } finally {
    await ledger?.close();
  }
}

function troubleOf(file: string): string | undefined {
  const bytes = openLedgerBytes(file);
  try {
    return bytes.trouble();
  } finally {
    bytes.close();
  }
}

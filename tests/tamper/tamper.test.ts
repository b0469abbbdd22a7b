import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { DatabaseSync } from 'node:sqlite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { LedgerReport } from '../../src/app/check-ledger.ts';
import { type Checkpoint, openCheckpoint } from '../../src/ledger/checkpoint.ts';
import { leafDigest } from '../../src/ledger/leaf.ts';
import { newSigningKey, readVerifierKey, verifierKeyText, verifierOf } from '../../src/ledger/note-key.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { bytesOf, changed, cut, headOf, leafOf, put, rehash, resign, seqOf, textOf } from './forger.ts';
import { check, ines, signedRoom, tampered, ticket } from './signed-room.ts';

let folder = '';
let room: Awaited<ReturnType<typeof signedRoom>>;
let kept: { readonly note: string; readonly checkpoint: Checkpoint };
let whole: LedgerReport;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'tamper-'));
  room = await signedRoom(folder);
  const report = check(room.file);
  if (typeof report === 'string') throw new Error(report);
  whole = report;
  const ledger = openLedger(room.file, { station: 'SEW-1' });
  const note = (await ledger.checkpoints()).at(-1) ?? '';
  await ledger.close();
  const checkpoint = openCheckpoint(note, verifierOf(room.key));
  if (!checkpoint.ok) throw new Error(checkpoint.error.message);
  kept = { note, checkpoint: checkpoint.value };
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('what nobody touched is intact, and says how much is signed', () => {
  expect(whole).toMatchObject({ station: 'SEW-1', fault: null, checkpoints: 3, clockSetBack: 0 });
  expect(whole.entries - whole.signed).toBe(2);
  expect(whole.keys).toEqual([verifierKeyText(verifierOf(room.key))]);
  const key = readVerifierKey(verifierKeyText(verifierOf(room.key)));
  expect(check(room.file, { since: kept, ...(key.ok && { key: key.value }) })).toEqual(whole);
});

const reading = (db: DatabaseSync): number => seqOf(db, 'checked', 3);
const toWithin = (entry: Record<string, unknown>): void =>
  void Object.assign(entry.body as object, { typed: '313', value: '313' });

test.each<readonly [string, (db: DatabaseSync) => number | null, string, RegExp]>([
  [
    'a reading edited',
    (db) => {
      const seq = reading(db);
      put(db, seq, changed(db, seq, toWithin), leafOf(db, seq));
      return seq;
    },
    'leaf',
    /does not come to the hash/,
  ],
  [
    'a letter edited so that it is no entry any more',
    (db) => {
      put(db, 9, textOf(db, 9).replace('{', '{ '), leafOf(db, 9));
      return 9;
    },
    'entry-canonical',
    /canonical form/,
  ],
  [
    'a reading edited and hashed again',
    (db) => {
      const seq = reading(db);
      put(db, seq, changed(db, seq, toWithin));
      // Its neighbour under the same node may be the one as well.
      return seq - (seq % 2);
    },
    'tree',
    /is not what the tree of hashes was kept over/,
  ],
  [
    'a reading edited and the whole tree made again',
    (db) => {
      const seq = reading(db);
      put(db, seq, changed(db, seq, toWithin));
      rehash(db);
      return null;
    },
    'checkpoint',
    /was signed over others/,
  ],
  [
    'an entry dropped',
    (db) => {
      db.exec('DELETE FROM entries WHERE seq = 12');
      return 12;
    },
    'gap',
    /is missing: the next one there is 13/,
  ],
  [
    'an entry dropped and the rest moved up',
    (db) => {
      const head = headOf(db);
      for (let seq = 12; seq < head; seq++)
        put(
          db,
          seq,
          changed(db, seq + 1, (entry) => Object.assign(entry, { seq })),
        );
      db.prepare('DELETE FROM entries WHERE seq = ?').run(head);
      rehash(db);
      return 12;
    },
    'entry-against-rule',
    /the rules refuse it: First comes/,
  ],
  [
    'two entries swapped',
    (db) => {
      const [a, b] = [textOf(db, 12), textOf(db, 13)];
      put(db, 12, b.replace('"seq":13', '"seq":12'));
      put(db, 13, a.replace('"seq":12', '"seq":13'));
      return 12;
    },
    'entry-against-rule',
    /the rules refuse it: First comes/,
  ],
  [
    'an entry twice',
    (db) => {
      const seq = headOf(db) + 1;
      const text = changed(db, seq - 1, (entry) => Object.assign(entry, { seq }));
      db.prepare('INSERT INTO entries (seq, text, leaf) VALUES (?, ?, ?)').run(seq, text, bytesOf(leafDigest(text)));
      rehash(db);
      return seq;
    },
    'entry-does-not-follow',
    /its nth is/,
  ],
  [
    'an entry put in by hand at the end',
    (db) => {
      const seq = headOf(db) + 1;
      const text = changed(db, seqOf(db, 'settled'), (entry) => Object.assign(entry, { seq }));
      db.prepare('INSERT INTO entries (seq, text, leaf) VALUES (?, ?, ?)').run(seq, text, bytesOf(leafDigest(text)));
      rehash(db);
      return seq;
    },
    'entry-against-rule',
    /the rules refuse it/,
  ],
  [
    'an entry of another station',
    (db) => {
      put(
        db,
        5,
        changed(db, 5, (entry) => Object.assign(entry, { station: 'SEW-2' })),
      );
      return 5;
    },
    'entry-station',
    /of another station, SEW-2/,
  ],
  [
    'an entry of no known kind',
    (db) => {
      put(
        db,
        5,
        changed(db, 5, (entry) => Object.assign(entry, { kind: 'welded' })),
      );
      return 5;
    },
    'entry-kind-unknown',
    /kind this version does not know/,
  ],
  [
    'a text changed',
    (db) => {
      db.exec("UPDATE kept SET bytes = CAST(replace(CAST(bytes AS TEXT), '312', '313') AS BLOB)");
      return null;
    },
    'text',
    /was changed/,
  ],
  [
    'a text thrown away',
    (db) => {
      db.exec('DELETE FROM kept');
      return seqOf(db, 'released');
    },
    'text-missing',
    /is not kept/,
  ],
  [
    'a checkpoint edited',
    (db) => {
      db.exec("UPDATE checkpoints SET note = replace(note, '— SEW-1 ', '— SEW-1 A') WHERE size > 5");
      return null;
    },
    'checkpoint',
    /does not hold/,
  ],
  [
    'a checkpoint of another key',
    (db) => {
      resign(db, newSigningKey('SEW-1'));
      return null;
    },
    'checkpoint',
    /is signed with another key/,
  ],
  [
    'the tail cut off, and its checkpoints left',
    (db) => {
      db.prepare('DELETE FROM entries WHERE seq > ?').run(headOf(db) - 4);
      rehash(db);
      return null;
    },
    'checkpoint',
    /the end was cut off/,
  ],
  [
    'a checkpoint kept as one over more entries than there are',
    (db) => {
      db.exec('UPDATE checkpoints SET size = 1000000 WHERE size = (SELECT max(size) FROM checkpoints)');
      return null;
    },
    'checkpoint',
    /signed over \d+ entries and is kept as one over 1000000: it was altered/,
  ],
  [
    'a checkpoint kept as one over fewer entries than none',
    (db) => {
      db.exec('UPDATE checkpoints SET size = -1 WHERE size = (SELECT min(size) FROM checkpoints)');
      return null;
    },
    'checkpoint',
    /signed over \d+ entries and is kept as one over -1: it was altered/,
  ],
  [
    'the tail cut off, and its hashes left',
    (db) => {
      const head = headOf(db);
      db.prepare('DELETE FROM entries WHERE seq > ?').run(head - 2);
      return null;
    },
    'tree',
    /the end was cut off/,
  ],
  [
    'the station renamed',
    (db) => {
      db.exec("UPDATE about SET station = 'SEW-2'");
      return 0;
    },
    'entry-station',
    /of another station/,
  ],
])('%s: found and named', (_, deed, rule, words) => {
  let entry: number | null = null;
  const report = check(
    tampered(room.file, (db) => {
      entry = deed(db);
    }),
  );
  expect(report).toMatchObject({ fault: { entry, rule, what: expect.stringMatching(words) } });
});

test('the guards taken off are missed', () => {
  const copy = tampered(room.file, () => {});
  expect(check(copy)).toEqual(whole);
  const without = tampered(room.file, (db) =>
    db.exec('CREATE TRIGGER mine BEFORE INSERT ON entries BEGIN SELECT 1; END'),
  );
  expect(check(without)).toMatchObject({
    fault: { entry: null, rule: 'file', what: expect.stringMatching(/altered how the file is built/) },
  });
});

test('the tail cut off with all that was kept over it is found against a checkpoint kept elsewhere', () => {
  const copy = tampered(room.file, (db) => cut(db, 6));
  expect(check(copy)).toMatchObject({ fault: null });
  expect(check(copy, { since: kept })).toMatchObject({
    fault: { rule: 'history', what: expect.stringMatching(/the end was cut off/) },
  });
});

test('everything written anew with the station’s own key is found against a checkpoint kept elsewhere', () => {
  const copy = tampered(room.file, (db) => {
    const seq = reading(db);
    put(db, seq, changed(db, seq, toWithin));
    // What depended on the bad reading goes too, as a careful forger would see to.
    const held = seqOf(db, 'held');
    db.prepare('DELETE FROM entries WHERE seq >= ?').run(held);
    resign(db, room.key);
  });
  expect(check(copy)).toMatchObject({ fault: null });
  expect(check(copy, { since: kept })).toMatchObject({ fault: { rule: 'history' } });
});

test('everything written anew with another key is found by the key that somebody vouches for', () => {
  const forger = newSigningKey('SEW-1');
  const copy = tampered(room.file, (db) => {
    const seq = seqOf(db, 'keyed');
    put(
      db,
      seq,
      changed(db, seq, (entry) => Object.assign(entry, { body: { key: verifierKeyText(verifierOf(forger)) } })),
    );
    resign(db, forger);
  });
  expect(check(copy)).toMatchObject({ fault: null });
  const key = readVerifierKey(verifierKeyText(verifierOf(room.key)));
  if (!key.ok) throw new Error(key.error.message);
  expect(check(copy, { key: key.value })).toMatchObject({ fault: { rule: 'key' } });
  expect(check(copy, { since: kept })).toMatchObject({ fault: { rule: 'history' } });
});

test('an entry that the program never would have written is found although it is hashed and signed by the book', async () => {
  const copy = tampered(room.file, () => {});
  const ledger = openLedger(copy, { station: 'SEW-1' });
  const head = await ledger.head();
  const at = '2026-11-25T11:30:00.000+01:00';
  await ledger.append(head, [
    {
      at,
      hand: ines,
      kind: 'finished',
      body: { ticket, nth: 99, sets: 2, good: 2, conceded: 0, scrapped: 0, held: 0 },
    },
  ]);
  await ledger.seal(room.key);
  await ledger.close();
  expect(check(copy)).toMatchObject({
    fault: { entry: head + 1, rule: 'entry-against-rule', what: expect.stringMatching(/there are points left/) },
  });
});

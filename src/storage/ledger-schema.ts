import { statSync } from 'node:fs';
import type { DatabaseSync } from 'node:sqlite';
import { StoreTrouble } from '../ledger/ledger-store.ts';

/** `WKFT` in ASCII: tells a ledger from any other SQLite file. */
const APPLICATION_ID = 0x574b4654;

/**
 * The statements that lead from one version of the file to the next; the file's `user_version` counts the lists it has seen.
 * A released list is never edited: what changes is appended as a new list.
 *
 * `text` is the canonical JSON of the entry and the only truth; `kind`, `hand` and `ticket` are views of it for the indexes.
 * The triggers hold for every program that writes this file, also against INSERT OR REPLACE.
 */
const VERSIONS: readonly (readonly string[])[] = [
  [
    `CREATE TABLE about (
  only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
  station TEXT NOT NULL
) STRICT`,
    `CREATE TABLE entries (
  seq INTEGER PRIMARY KEY,
  text TEXT NOT NULL CHECK (text ->> '$.seq' = seq),
  leaf BLOB NOT NULL CHECK (length(leaf) = 32),
  kind TEXT GENERATED ALWAYS AS (text ->> '$.kind') VIRTUAL,
  hand TEXT GENERATED ALWAYS AS (text ->> '$.hand') VIRTUAL,
  ticket TEXT GENERATED ALWAYS AS (
    CASE json_type(text, '$.body.ticket') WHEN 'text' THEN text ->> '$.body.ticket' END
  ) VIRTUAL
) STRICT`,
    'CREATE INDEX entries_by_ticket ON entries (ticket) WHERE ticket IS NOT NULL',
    'CREATE INDEX entries_by_hand ON entries (hand)',
    'CREATE INDEX entries_by_kind ON entries (kind)',
    'CREATE TABLE kept (digest BLOB PRIMARY KEY CHECK (length(digest) = 32), name TEXT NOT NULL, bytes BLOB NOT NULL) STRICT',
    // Complete nodes of the hash tree above the leaves: node `place` of a level covers 2^level entries. Level 0 are the leaves themselves.
    `CREATE TABLE tree (
  level INTEGER NOT NULL CHECK (level > 0),
  place INTEGER NOT NULL,
  hash BLOB NOT NULL CHECK (length(hash) = 32),
  PRIMARY KEY (level, place)
) STRICT, WITHOUT ROWID`,
    'CREATE TABLE checkpoints (size INTEGER PRIMARY KEY, note TEXT NOT NULL) STRICT',
    onlyAtTheEnd(),
    `CREATE TRIGGER tree_once BEFORE INSERT ON tree WHEN EXISTS (SELECT 1 FROM tree WHERE level = NEW.level AND place = NEW.place)
BEGIN SELECT RAISE(ABORT, 'a ledger only grows'); END`,
    `CREATE TRIGGER checkpoints_only_at_the_end BEFORE INSERT ON checkpoints
WHEN NEW.size <= (SELECT coalesce(max(size), -1) FROM checkpoints)
BEGIN SELECT RAISE(ABORT, 'a ledger only grows at its end'); END`,
    `CREATE TRIGGER about_once BEFORE INSERT ON about WHEN EXISTS (SELECT 1 FROM about)
BEGIN SELECT RAISE(ABORT, 'a ledger has one station'); END`,
    `CREATE TRIGGER kept_once BEFORE INSERT ON kept WHEN EXISTS (SELECT 1 FROM kept WHERE digest = NEW.digest)
BEGIN SELECT RAISE(IGNORE); END`,
    ...['about', 'entries', 'kept', 'tree', 'checkpoints'].flatMap((table) => [
      forbid(table, 'UPDATE'),
      forbid(table, 'DELETE'),
    ]),
  ],
];

/** Throws `StoreTrouble` for a folder or a pipe in the place of the ledger: SQLite would blame the disk for one, and wait for ever at the other. */
export function refuseNoFile(file: string): void {
  const found = statSync(file, { throwIfNoEntry: false });
  if (!found || found.isFile()) return;
  if (found.isDirectory()) throw new StoreTrouble(`${file} is a folder where a file should be: move it away.`);
  throw new StoreTrouble(
    `${file} is no file and holds no ledger: move it away, and put back the last good copy of the room.`,
  );
}

/** Throws `StoreTrouble` for a database of another program, and leaves it as it is; to be called before anything is changed. */
export function refuseForeign(db: DatabaseSync, file: string): void {
  // In this order: tables and id of a ledger are made in one transaction, perhaps by another process between the two lines.
  const isEmpty = statementsOf(db).length === 0;
  const id = readNumber(db, 'application_id');
  if (id === APPLICATION_ID || (id === 0 && isEmpty)) return;
  throw new StoreTrouble(
    `${file} belongs to another program and is no ledger: move it away, or name another room with --room.`,
  );
}

/** Brings a new or older file up to this program's version, in one transaction; refuses newer, altered and other stations' files. */
export function prepareSchema(db: DatabaseSync, file: string, station: string): void {
  if (readNumber(db, 'user_version') !== VERSIONS.length) {
    db.exec('BEGIN IMMEDIATE');
    try {
      bringUp(db, file, station);
      db.exec('COMMIT');
    } catch (error) {
      if (db.isTransaction) db.exec('ROLLBACK');
      throw error;
    }
  }
  refuseAltered(db, file);
  refuseOtherStation(db, file, station);
}

function bringUp(db: DatabaseSync, file: string, station: string): void {
  // Read again under the lock: another process may have made the tables while this one waited.
  const version = readNumber(db, 'user_version');
  if (version > VERSIONS.length) {
    throw new StoreTrouble(
      `The ledger ${file} was written by a newer walkfoot (ledger version ${version}, this one knows ${VERSIONS.length}): update walkfoot on this station.`,
    );
  }
  for (const statement of VERSIONS.slice(version).flat()) db.exec(statement);
  if (version === 0) db.prepare('INSERT INTO about (only_row, station) VALUES (1, ?)').run(station);
  db.exec(`PRAGMA application_id = ${APPLICATION_ID}`);
  db.exec(`PRAGMA user_version = ${VERSIONS.length}`);
}

/** A ledger whose triggers were taken off, or that was given others, is not one that only grows. */
export function isAltered(db: DatabaseSync): boolean {
  const expected = VERSIONS.flat();
  const found = new Set(statementsOf(db));
  return found.size !== expected.length || !expected.every((statement) => found.has(statement));
}

function refuseAltered(db: DatabaseSync, file: string): void {
  if (!isAltered(db)) return;
  throw new StoreTrouble(
    `Somebody altered how the ledger ${file} is built, so its protection may be gone: stop work, keep this file, and put back the last good copy of the room.`,
  );
}

function refuseOtherStation(db: DatabaseSync, file: string, station: string): void {
  const owner = db.prepare('SELECT station FROM about').get()?.station;
  if (owner === station) return;
  throw new StoreTrouble(
    `The ledger ${file} belongs to station ${owner ?? 'nobody'}, but walkfoot.yaml says ${station}: put the station's own name back in walkfoot.yaml.`,
  );
}

/** The statements as they were given; names beginning with `sqlite_` are SQLite's own. */
const statementsOf = (db: DatabaseSync): readonly string[] =>
  db
    .prepare("SELECT sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\'")
    .all()
    .map(({ sql }) => String(sql));

function readNumber(db: DatabaseSync, pragma: 'user_version' | 'application_id'): number {
  return Number(db.prepare(`PRAGMA ${pragma}`).get()?.[pragma]);
}

function onlyAtTheEnd(): string {
  return `CREATE TRIGGER entries_only_at_the_end BEFORE INSERT ON entries
WHEN NEW.seq <> (SELECT coalesce(max(seq), -1) + 1 FROM entries)
BEGIN SELECT RAISE(ABORT, 'a ledger only grows at its end'); END`;
}

function forbid(table: string, what: 'UPDATE' | 'DELETE'): string {
  return `CREATE TRIGGER ${table}_no_${what.toLowerCase()} BEFORE ${what} ON ${table}
BEGIN SELECT RAISE(ABORT, 'a ledger only grows'); END`;
}

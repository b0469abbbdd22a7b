import { existsSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { DatabaseSync, type SQLInputValue, type SQLOutputValue, type StatementSync } from 'node:sqlite';
import { setTimeout } from 'node:timers/promises';
import type { Digest } from '../base/brand.ts';
import { decodeEntry } from '../ledger/decode-entry.ts';
import type { Draft } from '../ledger/entry.ts';
import { digestOf, leafDigest } from '../ledger/leaf.ts';
import {
  type Appended,
  type EntryFilter,
  type KeptText,
  type LedgerStore,
  type LedgerTree,
  type StoredEntry,
  StoreTrouble,
} from '../ledger/ledger-store.ts';
import { matchesFilter } from '../ledger/matches-filter.ts';
import type { SigningKey } from '../ledger/note-key.ts';
import { sealEntry } from '../ledger/seal-entry.ts';
import { sealedNote } from '../ledger/sealed-note.ts';
import { frontierOf, type NodeAt, pushLeaf } from '../ledger/tree.ts';
import { syncFolder } from './durable.ts';
import { prepareSchema, refuseForeign, refuseNoFile } from './ledger-schema.ts';
import { selectEntries } from './select-entries.ts';
import { damaged, inLedgerWords, inPlainWords, isBusy } from './trouble.ts';

/** Milliseconds between two tries for the lock. */
const PAUSE = 2;

export interface LedgerOptions {
  /** Whose ledger this is; a file of another station is refused. */
  readonly station: string;
  /** How long to wait for another process's lock, in milliseconds. Default 5,000. */
  readonly waitMs?: number;
}

/**
 * Opens the ledger in one SQLite file, and makes it when it is not there (its folder must be). Throws `StoreTrouble` when
 * it cannot be used. One call writes one transaction: in WAL with `synchronous` FULL a commit is on disk when it returns.
 */
export function openLedger(file: string, options: LedgerOptions): LedgerStore {
  return inLedgerWords(file, () => new SqliteLedger(file, options.station, options.waitMs ?? 5_000));
}

class SqliteLedger implements LedgerStore {
  readonly station: string;
  readonly #file: string;
  /** The file and the two SQLite keeps beside it, as they were when it was opened. */
  readonly #inodes: readonly (number | undefined)[];
  readonly #db: DatabaseSync;
  readonly #waitMs: number;
  readonly #statements = new Map<string, StatementSync>();

  constructor(file: string, station: string, waitMs: number) {
    this.station = station;
    this.#file = file;
    this.#waitMs = waitMs;
    refuseNoFile(file);
    const isNew = !existsSync(file);
    this.#db = new DatabaseSync(file, { timeout: waitMs, enableDoubleQuotedStringLiterals: false, defensive: true });
    try {
      refuseForeign(this.#db, file);
      turnOnLog(this.#db, file, waitMs);
      this.#db.exec('PRAGMA synchronous = FULL; PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON');
      prepareSchema(this.#db, file, station);
      this.#refuseCut();
      if (isNew) syncFolder(dirname(file));
      this.#inodes = inodesOf(file);
    } catch (error) {
      this.#db.close();
      throw error;
    }
  }

  async head(): Promise<number> {
    return inPlainWords(this.#file, () => this.#head());
  }

  async append(head: number, drafts: readonly Draft[]): Promise<Appended> {
    return this.#write(() => {
      const now = this.#head();
      if (now !== head) return { outcome: 'moved', head: now };
      const entries = drafts.map((draft, place) => sealEntry(this.station, now + 1 + place, draft));
      const insert = this.#prepared('INSERT INTO entries (seq, text, leaf) VALUES (?, ?, ?)');
      const insertNode = this.#prepared('INSERT INTO tree (level, place, hash) VALUES (?, ?, ?)');
      const peaks = [...frontierOf(now + 1, this.#nodeAt).peaks];
      for (const { entry, text, leaf } of entries) {
        insert.run(entry.seq, text, Buffer.from(leaf, 'hex'));
        pushLeaf(peaks, entry.seq, leaf, (first, end, root) => {
          const width = end - first;
          if (width > 1) insertNode.run(Math.log2(width), first / width, Buffer.from(root, 'hex'));
        });
      }
      return { outcome: 'appended', entries };
    });
  }

  async read(filter: EntryFilter): Promise<readonly StoredEntry[]> {
    const { sql, values } = selectEntries(filter);
    const rows = this.#rows(sql, values);
    // An index that was damaged finds entries of somebody else, a table that was has gaps; the entries themselves say so.
    if (!rows.every(({ entry }) => matchesFilter(entry, filter)) || (isOfAll(filter) && hasGaps(rows, filter)))
      throw new StoreTrouble(damaged(this.#file));
    return rows;
  }

  async keep(texts: readonly KeptText[]): Promise<void> {
    for (const { digest, name, bytes } of texts) {
      if (digestOf(bytes) !== digest) throw new Error(`${name} has another digest`);
    }
    await this.#write(() => {
      const insert = this.#prepared('INSERT INTO kept (digest, name, bytes) VALUES (?, ?, ?)');
      for (const { digest, name, bytes } of texts) insert.run(Buffer.from(digest, 'hex'), name, bytes);
    });
  }

  async kept(digest: Digest): Promise<KeptText | undefined> {
    const select = 'SELECT name, bytes FROM kept WHERE digest = ?';
    const row = inPlainWords(this.#file, () => this.#prepared(select).get(Buffer.from(digest, 'hex')));
    if (row === undefined) return undefined;
    const { name, bytes } = row;
    if (typeof name !== 'string' || !(bytes instanceof Uint8Array) || digestOf(bytes) !== digest) {
      throw new StoreTrouble(damaged(this.#file));
    }
    return { digest, name, bytes };
  }

  async tree(): Promise<LedgerTree> {
    return { size: (await this.head()) + 1, nodeAt: this.#nodeAt };
  }

  async seal(key: SigningKey): Promise<string> {
    return this.#write(() => {
      const size = this.#head() + 1;
      const last = this.#prepared('SELECT size, note FROM checkpoints ORDER BY size DESC LIMIT 1').get();
      if (last?.size === size) return String(last.note);
      const note = sealedNote({ size, nodeAt: this.#nodeAt }, key);
      this.#prepared('INSERT INTO checkpoints (size, note) VALUES (?, ?)').run(size, note);
      return note;
    });
  }

  async checkpoints(): Promise<readonly string[]> {
    const select = 'SELECT note FROM checkpoints ORDER BY size';
    return inPlainWords(this.#file, () =>
      this.#prepared(select)
        .all()
        .map(({ note }) => String(note)),
    );
  }

  async close(): Promise<void> {
    if (this.#db.isOpen) inPlainWords(this.#file, () => this.#db.close());
  }

  readonly #nodeAt: NodeAt = (level, place) => {
    const row = inPlainWords(this.#file, () =>
      level === 0
        ? this.#prepared('SELECT leaf AS hash FROM entries WHERE seq = ?').get(place)
        : this.#prepared('SELECT hash FROM tree WHERE level = ? AND place = ?').get(level, place),
    );
    if (row?.hash instanceof Uint8Array) return Buffer.from(row.hash).toString('hex') as Digest;
    throw new StoreTrouble(damaged(this.#file));
  };

  #head(): number {
    return Number(this.#prepared('SELECT coalesce(max(seq), -1) AS head FROM entries').get()?.head);
  }

  /** Damage can hide the end of the entries, and the next one would be written in the place of one that is lost. */
  #refuseCut(): void {
    const { size, pairs } = this.#prepared(SIZES).get() ?? {};
    if (Math.floor(Number(size) / 2) !== Number(pairs)) throw new StoreTrouble(damaged(this.#file));
  }

  /**
   * Runs `work` alone among all writers; it is on disk, whole, when this resolves, and undone when this rejects. The lock is waited for
   * without SQLite's own wait, during which the program would neither draw nor hear a signal.
   */
  async #write<T>(work: () => T): Promise<T> {
    const until = performance.now() + this.#waitMs;
    for (;;) {
      const done = inPlainWords(this.#file, () => this.#writeNow(work, until));
      if (done) return done.result;
      await setTimeout(PAUSE);
    }
  }

  /** From the lock to the commit in one go, so that nothing else of this program comes between. Without the lock: nothing. */
  #writeNow<T>(work: () => T, until: number): { readonly result: T } | undefined {
    this.#refuseMoved();
    if (!this.#tookLock(until)) return undefined;
    try {
      const result = work();
      this.#prepared('COMMIT').run();
      return { result };
    } catch (error) {
      if (this.#db.isTransaction) this.#db.exec('ROLLBACK');
      throw error;
    }
  }

  /** False while another program has the lock; from `until` on that is a trouble. */
  #tookLock(until: number): boolean {
    this.#prepared('PRAGMA busy_timeout = 0').get();
    try {
      this.#prepared('BEGIN IMMEDIATE').run();
      return true;
    } catch (error) {
      if (!isBusy(error) || performance.now() >= until) throw error;
      return false;
    } finally {
      this.#prepared(`PRAGMA busy_timeout = ${this.#waitMs}`).get();
    }
  }

  /**
   * SQLite would go on writing to a file that has been deleted or moved away, where nobody finds it again. That goes for its log
   * and index too; whoever closes the ledger then writes what the lost log held into the file.
   */
  #refuseMoved(): void {
    const now = inodesOf(this.#file);
    if (this.#inodes.every((inode, place) => inode === now[place])) return;
    throw new StoreTrouble(
      `The ledger ${this.#file} was moved or replaced while it was in use, and nothing was recorded: put it back, then start walkfoot again.`,
    );
  }

  #rows(sql: string, values: readonly SQLInputValue[]): readonly StoredEntry[] {
    return inLedgerWords(this.#file, () =>
      this.#prepared(sql)
        .all(...values)
        .map((row) => this.#stored(row)),
    );
  }

  #stored({ seq, text, leaf }: Record<string, SQLOutputValue>): StoredEntry {
    if (typeof text === 'string' && leaf instanceof Uint8Array) {
      const digest = leafDigest(text);
      const entry = decodeEntry(text);
      if (entry.ok && entry.value.seq === seq && digest === Buffer.from(leaf).toString('hex')) {
        return { entry: entry.value, text, leaf: digest };
      }
    }
    throw new StoreTrouble(
      `Entry ${seq} of the ledger ${this.#file} is damaged or was changed: stop work, keep the file as it is, and put back the last good copy of the room.`,
    );
  }

  #prepared(sql: string): StatementSync {
    const known = this.#statements.get(sql);
    if (known) return known;
    const made = this.#db.prepare(sql);
    this.#statements.set(sql, made);
    return made;
  }
}

/** How many entries there are, and how many pairs of them the tree has. */
const SIZES = `SELECT (SELECT coalesce(max(seq), -1) + 1 FROM entries) AS size,
  (SELECT coalesce(max(place), -1) + 1 FROM tree WHERE level = 1) AS pairs`;

const isOfAll = ({ ticket, hand, kinds }: EntryFilter): boolean =>
  ticket === undefined && hand === undefined && kinds === undefined;

const hasGaps = (rows: readonly StoredEntry[], { after = -1 }: EntryFilter): boolean =>
  rows.some(({ entry }, place) => entry.seq !== after + 1 + place);

const inodesOf = (file: string): readonly (number | undefined)[] =>
  ['', '-wal', '-shm'].map((end) => statSync(`${file}${end}`, { throwIfNoEntry: false })?.ino);

/** SQLite does not wait by itself when two processes turn the log of a new file on at once. */
function turnOnLog(db: DatabaseSync, file: string, waitMs: number): void {
  const until = performance.now() + waitMs;
  for (;;) {
    try {
      const mode = db.prepare('PRAGMA journal_mode = WAL').get()?.journal_mode;
      if (mode === 'wal') return;
      throw new StoreTrouble(
        `The disk of ${file} cannot keep a ledger safely (as on many network drives): put the room on a disk of this machine.`,
      );
    } catch (error) {
      if (!isBusy(error) || performance.now() >= until) throw error;
    }
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
  }
}

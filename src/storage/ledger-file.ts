import { DatabaseSync, type StatementSync } from 'node:sqlite';
import type { Digest } from '../base/brand.ts';
import { digestOf } from '../ledger/leaf.ts';
import type { LedgerBytes } from '../ledger/ledger-bytes.ts';
import { isAltered, refuseForeign, refuseNoFile } from './ledger-schema.ts';
import { inLedgerWords, inPlainWords, isNonsense } from './trouble.ts';

/** The ledger file to be looked at and not written, by a connection of its own. Throws `StoreTrouble` when it can't be opened. */
export function openLedgerBytes(file: string): LedgerBytes & { close(): void } {
  const db = inPlainWords(file, () => {
    refuseNoFile(file);
    return new DatabaseSync(file, { readOnly: true, enableDoubleQuotedStringLiterals: false, defensive: true });
  });
  const statements = new Map<string, StatementSync>();
  const prepared = (sql: string): StatementSync => {
    const known = statements.get(sql) ?? db.prepare(sql);
    statements.set(sql, known);
    return known;
  };
  try {
    inPlainWords(file, () => {
      refuseForeign(db, file);
      // All that is read is of one moment, whoever writes meanwhile.
      db.exec('PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; BEGIN');
    });
  } catch (error) {
    db.close();
    throw error;
  }
  return {
    trouble: () =>
      inLedgerWords(file, () => {
        if (isAltered(db)) return 'somebody altered how the file is built, so its protection may be gone';
        const found = integrity(prepared);
        return found === 'ok' ? undefined : `the file itself is damaged (${found})`;
      }),
    get station() {
      // Of a file built by somebody else nothing is asked: what bears the name of a table there may be a view that never ends.
      return inLedgerWords(file, () =>
        isAltered(db) ? undefined : prepared('SELECT station FROM about').get()?.station,
      );
    },
    entries: () =>
      rows<{ readonly seq: unknown; readonly text: unknown; readonly leaf: unknown }>(
        db,
        file,
        'SELECT seq, text, leaf FROM entries ORDER BY seq',
      ),
    // A statement for each level: they are walked side by side.
    level: (level) =>
      rows<{ readonly place: unknown; readonly hash: unknown }>(
        db,
        file,
        'SELECT place, hash FROM tree WHERE level = ? ORDER BY place',
        level,
      )[Symbol.iterator](),
    get levels() {
      return inLedgerWords(file, () =>
        Number(prepared('SELECT coalesce(max(level), 0) AS levels FROM tree').get()?.levels),
      );
    },
    checkpoints: () =>
      inLedgerWords(
        file,
        () =>
          prepared('SELECT size, note FROM checkpoints ORDER BY size').all() as unknown as {
            size: unknown;
            note: unknown;
          }[],
      ),
    *texts() {
      for (const { digest, name, bytes } of rows<{ digest: Uint8Array; name: unknown; bytes: Uint8Array }>(
        db,
        file,
        'SELECT digest, name, bytes FROM kept',
      ))
        yield { digest: Buffer.from(digest).toString('hex'), name, found: digestOf(bytes) };
    },
    text: (digest: Digest) => {
      const row = inLedgerWords(file, () =>
        prepared('SELECT bytes FROM kept WHERE digest = ?').get(Buffer.from(digest, 'hex')),
      );
      return row?.bytes instanceof Uint8Array ? row.bytes : undefined;
    },
    close: () => db.close(),
  };
}

/** What SQLite finds wrong with the file. An entry that is no JSON ends its search; that one is named when the entries are read. */
function integrity(prepared: (sql: string) => StatementSync): string {
  try {
    return String(prepared('PRAGMA integrity_check(1)').get()?.integrity_check);
  } catch (error) {
    if (!isNonsense(error)) throw error;
    const isNamed = prepared('SELECT 1 FROM entries WHERE NOT json_valid(text)').get() !== undefined;
    return isNamed ? 'ok' : String(error);
  }
}

/** The rows of a statement one by one; what SQLite objects to on the way is a `StoreTrouble`. */
function* rows<Row>(db: DatabaseSync, file: string, sql: string, ...values: readonly number[]): Generator<Row> {
  const all = inLedgerWords(file, () => db.prepare(sql).iterate(...values));
  const next = (): IteratorResult<unknown> => all.next();
  for (;;) {
    const row = inLedgerWords(file, next);
    if (row.done) return;
    yield row.value as Row;
  }
}

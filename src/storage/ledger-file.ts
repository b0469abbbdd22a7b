import { DatabaseSync, type StatementSync } from 'node:sqlite';
import type { Digest } from '../base/brand.ts';
import { digestOf } from '../ledger/leaf.ts';
import type { LedgerBytes } from '../ledger/ledger-bytes.ts';
import { isAltered, refuseForeign } from './ledger-schema.ts';
import { inPlainWords } from './trouble.ts';

/** The ledger file to be looked at and not written, by a connection of its own. Throws `StoreTrouble` when it can't be opened. */
export function openLedgerBytes(file: string): LedgerBytes & { close(): void } {
  const db = inPlainWords(
    file,
    () => new DatabaseSync(file, { readOnly: true, enableDoubleQuotedStringLiterals: false, defensive: true }),
  );
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
      inPlainWords(file, () => {
        if (isAltered(db)) return 'somebody altered how the file is built, so its protection may be gone';
        const found = String(prepared('PRAGMA integrity_check(1)').get()?.integrity_check);
        return found === 'ok' ? undefined : `the file itself is damaged (${found})`;
      }),
    get station() {
      return inPlainWords(file, () => prepared('SELECT station FROM about').get()?.station);
    },
    entries: () =>
      rows<{ readonly seq: unknown; readonly text: unknown; readonly leaf: unknown }>(
        file,
        db.prepare('SELECT seq, text, leaf FROM entries ORDER BY seq'),
      ),
    // A statement for each level: they are walked side by side.
    level: (level) =>
      rows<{ readonly place: unknown; readonly hash: unknown }>(
        file,
        db.prepare('SELECT place, hash FROM tree WHERE level = ? ORDER BY place'),
        level,
      )[Symbol.iterator](),
    get levels() {
      return inPlainWords(file, () =>
        Number(prepared('SELECT coalesce(max(level), 0) AS levels FROM tree').get()?.levels),
      );
    },
    checkpoints: () =>
      inPlainWords(
        file,
        () =>
          prepared('SELECT size, note FROM checkpoints ORDER BY size').all() as unknown as {
            size: unknown;
            note: unknown;
          }[],
      ),
    *texts() {
      for (const { digest, name, bytes } of rows<{ digest: Uint8Array; name: unknown; bytes: Uint8Array }>(
        file,
        db.prepare('SELECT digest, name, bytes FROM kept'),
      ))
        yield { digest: Buffer.from(digest).toString('hex'), name, found: digestOf(bytes) };
    },
    text: (digest: Digest) => {
      const row = inPlainWords(file, () =>
        prepared('SELECT bytes FROM kept WHERE digest = ?').get(Buffer.from(digest, 'hex')),
      );
      return row?.bytes instanceof Uint8Array ? row.bytes : undefined;
    },
    close: () => db.close(),
  };
}

/** The rows of a statement one by one; what SQLite objects to on the way is a `StoreTrouble`. */
function* rows<Row>(file: string, statement: StatementSync, ...values: readonly number[]): Generator<Row> {
  const all = inPlainWords(file, () => statement.iterate(...values));
  const next = (): IteratorResult<unknown> => all.next();
  for (;;) {
    const row = inPlainWords(file, next);
    if (row.done) return;
    yield row.value as Row;
  }
}

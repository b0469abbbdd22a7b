import type { DatabaseSync } from 'node:sqlite';
import type { Digest } from '../../src/base/brand.ts';
import { canonicalText } from '../../src/ledger/canonical.ts';
import { signCheckpoint } from '../../src/ledger/checkpoint.ts';
import { leafDigest } from '../../src/ledger/leaf.ts';
import type { SigningKey } from '../../src/ledger/note-key.ts';
import { type Frontier, pushLeaf, rootOf } from '../../src/ledger/tree.ts';

// What somebody may do to a ledger's file who knows SQLite, hashes and signatures.

/** Text of an entry as it lies there, with this change and still canonical. */
export const changed = (db: DatabaseSync, seq: number, change: (entry: Record<string, unknown>) => void): string => {
  const entry = JSON.parse(String(db.prepare('SELECT text FROM entries WHERE seq = ?').get(seq)?.text));
  change(entry);
  return canonicalText(entry);
};
export const put = (db: DatabaseSync, seq: number, text: string, leaf: Uint8Array = bytesOf(leafDigest(text))): void =>
  void db.prepare('UPDATE entries SET text = ?, leaf = ? WHERE seq = ?').run(text, leaf, seq);
export const leafOf = (db: DatabaseSync, seq: number): Uint8Array =>
  db.prepare('SELECT leaf FROM entries WHERE seq = ?').get(seq)?.leaf as Uint8Array;
export const textOf = (db: DatabaseSync, seq: number): string =>
  String(db.prepare('SELECT text FROM entries WHERE seq = ?').get(seq)?.text);
export const seqOf = (db: DatabaseSync, kind: string, nth = 0): number =>
  Number(db.prepare('SELECT seq FROM entries WHERE kind = ? ORDER BY seq').all(kind)[nth]?.seq);
export const headOf = (db: DatabaseSync): number =>
  Number(db.prepare('SELECT max(seq) AS head FROM entries').get()?.head);

/** Makes the tree of hashes anew over the entries as they lie there. */
export function rehash(db: DatabaseSync): Frontier {
  db.exec('DELETE FROM tree');
  const peaks: Digest[] = [];
  const insert = db.prepare('INSERT INTO tree (level, place, hash) VALUES (?, ?, ?)');
  const leaves = db.prepare('SELECT leaf FROM entries ORDER BY seq').all();
  for (const [size, { leaf }] of leaves.entries())
    pushLeaf(peaks, size, Buffer.from(leaf as Uint8Array).toString('hex') as Digest, (first, end, root) => {
      const width = end - first;
      if (width > 1) insert.run(Math.log2(width), first / width, bytesOf(root));
    });
  return { size: leaves.length, peaks };
}

/** Throws away what was signed and signs the whole with this key, as somebody who has it. */
export function resign(db: DatabaseSync, key: SigningKey): void {
  const frontier = rehash(db);
  db.exec('DELETE FROM checkpoints');
  const note = signCheckpoint({ size: frontier.size, root: rootOf(frontier) }, key);
  db.prepare('INSERT INTO checkpoints (size, note) VALUES (?, ?)').run(frontier.size, note);
}
export const bytesOf = (digest: Digest): Uint8Array => Buffer.from(digest, 'hex');

/** Cuts off the last entries with all that was kept over them. */
export function cut(db: DatabaseSync, many: number): void {
  db.prepare('DELETE FROM entries WHERE seq > ?').run(headOf(db) - many);
  rehash(db);
  db.prepare('DELETE FROM checkpoints WHERE size > ?').run(headOf(db) + 1);
}

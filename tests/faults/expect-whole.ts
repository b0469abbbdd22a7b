import { DatabaseSync } from 'node:sqlite';
import { expect } from 'vitest';
import type { Digest } from '../../src/base/brand.ts';
import { leafDigest } from '../../src/ledger/leaf.ts';
import { emptyFrontier, frontierOf, grown } from '../../src/ledger/tree.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';

/**
 * Opens the ledger anew and checks it whole: the file is sound, seq has no gap, every text has its leaf and the tree its nodes, appends are whole
 * and every entry that some writer was told of is there unchanged. Returns the number of entries.
 */
export async function expectWhole(file: string, ...told: readonly ReadonlyMap<number, string>[]): Promise<number> {
  const ledger = openLedger(file, { station: 'table-1' });
  const leaves: Digest[] = [];
  const parts = new Map<string, number>();
  for (const { entry, text, leaf } of await ledger.read({})) {
    expect(entry.seq).toBe(leaves.length);
    expect(leafDigest(text)).toBe(leaf);
    leaves.push(leaf);
    const turn = Number(entry.body.turn);
    const key = `${entry.hand} ${turn}`;
    expect(entry.body.part).toBe(parts.get(key) ?? 0);
    parts.set(key, Number(entry.body.part) + 1);
  }
  const { nodeAt } = await ledger.tree();
  expect(frontierOf(leaves.length, nodeAt)).toEqual(leaves.reduce(grown, emptyFrontier));
  await ledger.close();
  for (const [key, count] of parts) expect([key, count]).toEqual([key, 1 + (Number(key.split(' ').at(-1)) % 3)]);
  for (const acknowledged of told)
    for (const [seq, leaf] of acknowledged) expect([seq, leaves[seq]]).toEqual([seq, leaf]);

  const db = new DatabaseSync(file, { readOnly: true });
  expect(db.prepare('PRAGMA integrity_check').get()).toEqual({ integrity_check: 'ok' });
  db.close();
  return leaves.length;
}

import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import type { Digest } from '../src/base/brand.ts';
import { formatStamp, parseStamp } from '../src/base/instant.ts';
import { canonicalText } from '../src/ledger/canonical.ts';
import type { Entry } from '../src/ledger/entry.ts';
import { leafDigest } from '../src/ledger/leaf.ts';
import { pushLeaf } from '../src/ledger/tree.ts';

/** The finished bundle of the practice room that is sewn over and over again. */
const TEMPLATE = 'B-1042';

/**
 * A copy of the practice room whose ledger goes on with one bundle sewn again under other tickets, until it holds `size` entries or
 * a few more; answers it with a ticket from its middle. Hashed by the rules, but written past the program, whose durable appends
 * would take a quarter of an hour for a million.
 */
export function largeRoom(
  practiceRoom: string,
  folder: string,
  size: number,
): { readonly room: string; readonly ticket: string } {
  const place = join(folder, `room-of-${size}`);
  cpSync(practiceRoom, place, { recursive: true });
  const db = new DatabaseSync(join(place, '.walkfoot', 'ledger.db'));
  db.exec('PRAGMA synchronous = OFF');
  const all = db.prepare('SELECT text, leaf FROM entries ORDER BY seq').all();
  const peaks: Digest[] = [];
  for (const [seq, { text }] of all.entries()) pushLeaf(peaks, seq, leafDigest(String(text)));
  let next = all.length;
  const entries = all.map(({ text }) => JSON.parse(String(text)) as Entry);
  const bundle = entries.filter(({ body }) => body.ticket === TEMPLATE);
  const insert = db.prepare('INSERT INTO entries (seq, text, leaf) VALUES (?, ?, ?)');
  const insertNode = db.prepare('INSERT INTO tree (level, place, hash) VALUES (?, ?, ?)');
  const start = msOf(bundle[0]);
  const long = msOf(bundle.at(-1)) - start + 60_000;
  let now = msOf(entries.at(-1)) + 60_000;
  db.exec('BEGIN');
  for (let copy = 1; next < size; copy++) {
    const first = next;
    for (const { at, body, ...rest } of bundle) {
      const stamp = formatStamp({ ms: now + msOf({ at }) - start, offset: 0 });
      const struck = rest.kind === 'struck' ? { entry: first + bundle.findIndex(({ seq }) => seq === body.entry) } : {};
      const entry = { ...rest, seq: next, at: stamp, body: { ...body, ...struck, ticket: `C-${copy}` } };
      const text = canonicalText(entry);
      const leaf = leafDigest(text);
      insert.run(next, text, Buffer.from(leaf, 'hex'));
      pushLeaf(peaks, next++, leaf, (from, end, root) => {
        const width = end - from;
        if (width > 1) insertNode.run(Math.log2(width), from / width, Buffer.from(root, 'hex'));
      });
    }
    now += long;
  }
  db.exec('COMMIT; PRAGMA wal_checkpoint(TRUNCATE)');
  db.close();
  return { room: place, ticket: `C-${Math.ceil((size - all.length) / bundle.length / 2)}` };
}

const msOf = (entry: { readonly at: string } | undefined): number => parseStamp(entry?.at ?? '')?.ms ?? 0;

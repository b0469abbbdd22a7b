import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { formatStamp, parseStamp } from '../src/base/instant.ts';
import { canonicalText } from '../src/ledger/canonical.ts';
import type { Entry } from '../src/ledger/entry.ts';
import { leafBytes } from '../src/ledger/leaf.ts';
import { TreeEdge } from '../src/ledger/tree.ts';

/** The finished bundle of the practice room that is sewn over and over again. */
const TEMPLATE = 'B-1042';

/**
 * A copy of the practice room whose ledger goes on with one bundle sewn again under other tickets, until it holds `size` entries or
 * a few more; answers a ticket from its middle. Hashed by the rules, but written past the program, whose durable appends
 * would take a quarter of an hour for a million.
 */
export function largeRoom(practiceRoom: string, folder: string, size: number): string {
  const place = join(folder, `room-of-${size}`);
  cpSync(practiceRoom, place, { recursive: true });
  const db = new DatabaseSync(join(place, '.walkfoot', 'ledger.db'));
  db.exec('PRAGMA synchronous = OFF');
  const all = db.prepare('SELECT text, leaf FROM entries ORDER BY seq').all();
  const edge = new TreeEdge();
  for (const { leaf } of all) edge.add(leaf as Uint8Array);
  const entries = all.map(({ text }) => JSON.parse(String(text)) as Entry);
  const bundle = entries.filter(({ body }) => body.ticket === TEMPLATE);
  const insert = db.prepare('INSERT INTO entries (seq, text, leaf) VALUES (?, ?, ?)');
  const insertNode = db.prepare('INSERT INTO tree (level, place, hash) VALUES (?, ?, ?)');
  const start = msOf(bundle[0]);
  const long = msOf(bundle.at(-1)) - start + 60_000;
  let now = msOf(entries.at(-1)) + 60_000;
  db.exec('BEGIN');
  for (let copy = 1; edge.size < size; copy++) {
    const first = edge.size;
    for (const { at, body, ...rest } of bundle) {
      const stamp = formatStamp({ ms: now + msOf({ at }) - start, offset: 0 });
      const struck = rest.kind === 'struck' ? { entry: first + bundle.findIndex(({ seq }) => seq === body.entry) } : {};
      const entry = { ...rest, seq: edge.size, at: stamp, body: { ...body, ...struck, ticket: `C-${copy}` } };
      const text = canonicalText(entry);
      const leaf = leafBytes(text);
      insert.run(entry.seq, text, leaf);
      edge.add(leaf, (level, at, hash) => insertNode.run(level, at, hash));
    }
    now += long;
  }
  db.exec('COMMIT; PRAGMA wal_checkpoint(TRUNCATE)');
  db.close();
  return `C-${Math.ceil((size - all.length) / bundle.length / 2)}`;
}

const msOf = (entry: { readonly at: string } | undefined): number => parseStamp(entry?.at ?? '')?.ms ?? 0;

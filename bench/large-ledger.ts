import { execFileSync } from 'node:child_process';
import { hash } from 'node:crypto';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { checkLedger } from '../src/app/check-ledger.ts';
import { openLedgerBytes } from '../src/storage/ledger-file.ts';
import { largeRoom } from './large-room.ts';
import { inTurn, timed } from './measure.ts';
import { ms, ratioLine } from './print.ts';
import { run } from './run.ts';

const SIZE = 1_000_000;

/** A ledger of a million entries: one bundle looked up, and the whole recomputed. Takes some minutes. */
export async function largeLedger(folder: string): Promise<readonly string[]> {
  const { room, ticket } = largeRoom(join(folder, 'room'), folder, SIZE);
  const file = join(room, '.walkfoot', 'ledger.db');

  const query = `SELECT text FROM entries WHERE ticket = '${ticket}' ORDER BY seq`;
  const who = await inTurn(
    15,
    () => timed(() => run(['who', ticket, '--room', room])),
    () => timed(() => execFileSync('sqlite3', ['-readonly', file, query])),
  );

  // The texts are read beforehand, so that only the hashing is measured.
  const db = new DatabaseSync(file, { readOnly: true });
  const texts = db.prepare('SELECT text FROM entries ORDER BY seq').all();
  db.close();
  const hashing = await timed(() => {
    for (const { text } of texts) hash('sha256', String(text));
  });
  texts.length = 0;
  const bytes = openLedgerBytes(file);
  const before = process.memoryUsage.rss();
  let highest = before;
  const checking = await timed(() => {
    const { fault } = checkLedger(bytes, {}, () => {
      highest = Math.max(highest, process.memoryUsage.rss());
    });
    if (fault) throw new Error(fault.what);
  });
  bytes.close();
  const ratio = checking / hashing;
  const grew = ((highest - before) / 2 ** 20).toFixed(0);
  return [
    ratioLine(
      `who, one bundle of a million entries, ${ms(who.a)}`,
      `the same query by sqlite3, ${ms(who.b)}`,
      who.ratio,
      'at most 5',
      '15 pairs',
    ),
    ratioLine(
      `verify, a million entries, ${(checking / 1000).toFixed(1)} s, ${grew} MiB more`,
      `SHA-256 of each, ${(hashing / 1000).toFixed(2)} s`,
      { least: ratio, median: ratio, most: ratio },
      'at most 4',
      'once',
    ),
  ];
}

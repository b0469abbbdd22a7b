// Run as a process of its own: appends entries to a ledger and prints `SEQ LEAF` for each one the ledger has acknowledged.
// Arguments: ledger file, name of this writer, number of appends or `forever`, milliseconds of rest between two appends,
// and the user to become, for which it must have been started by root.

import { writeSync } from 'node:fs';
import { setTimeout } from 'node:timers/promises';
import { type LedgerStore, StoreTrouble } from '../../src/ledger/ledger-store.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';

const [file = '', name = '', count = '1', rest = '0', user = ''] = process.argv.slice(2);
const limit = count === 'forever' ? Number.POSITIVE_INFINITY : Number(count);

// Only now, for that user need not be allowed to read the program itself.
if (user !== '') {
  process.setgroups?.([]);
  process.setgid?.(Number(user));
  process.setuid?.(Number(user));
}

let ledger: LedgerStore | undefined;
try {
  ledger = openLedger(file, { station: 'table-1' });
  writeSync(1, 'ready\n');
  for (let turn = 0; turn < limit; turn += 1) {
    await appendOne(ledger, turn);
    if (Number(rest) > 0) await setTimeout(Number(rest));
  }
} catch (error) {
  if (!(error instanceof StoreTrouble)) throw error;
  writeSync(1, `trouble ${error.message}\n`);
  process.exitCode = 2;
} finally {
  await ledger?.close();
}

/** One append of one to three entries, tried again whenever the other writer was first. */
async function appendOne(to: LedgerStore, turn: number): Promise<void> {
  const drafts = Array.from({ length: 1 + (turn % 3) }, (_, part) => ({
    at: '2026-11-25T10:42:07.120+01:00',
    hand: name,
    kind: 'checked',
    body: { ticket: `B-${turn % 7}`, turn, part, words: 'é 😂 '.repeat(turn % 40) },
  }));
  for (;;) {
    const answer = await to.append(await to.head(), drafts);
    if (answer.outcome === 'moved') continue;
    // Written at once, not through a stream: what is printed here has really been told to somebody.
    writeSync(1, answer.entries.map(({ entry, leaf }) => `${entry.seq} ${leaf}\n`).join(''));
    return;
  }
}

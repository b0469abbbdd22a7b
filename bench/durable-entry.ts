import { closeSync, fdatasyncSync, openSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { canonicalText } from '../src/ledger/canonical.ts';
import type { Draft } from '../src/ledger/entry.ts';
import { openLedger } from '../src/storage/sqlite-ledger.ts';
import { spread, timed } from './measure.ts';
import { ratioLine } from './print.ts';

/** One entry made durable (canonical text, hash, insert, commit), against write and fdatasync of the same bytes. */
export async function durableEntry(folder: string): Promise<readonly string[]> {
  const rounds = 20;
  const entries = 100;
  const store = openLedger(join(folder, 'bench.db'), { station: 'bench' });
  const file = openSync(join(folder, 'bench.log'), 'a');
  let head = await store.head();
  const ratios: number[] = [];
  const micros: number[] = [];
  for (let round = -1; round < rounds; round++) {
    const ours = await timed(async () => {
      for (let i = 0; i < entries; i++) {
        const appended = await store.append(head, [draft(i)]);
        if (appended.outcome !== 'appended') throw new Error('another writer');
        head += 1;
      }
    });
    const plain = await timed(() => {
      for (let i = 0; i < entries; i++) {
        writeSync(file, `${canonicalText({ ...draft(i), v: 1, station: 'bench', seq: head + i })}\n`);
        fdatasyncSync(file);
      }
    });
    // The first round warms up.
    if (round < 0) continue;
    ratios.push(ours / plain);
    micros.push((ours / entries) * 1000);
  }
  closeSync(file);
  await store.close();
  const one = spread(micros).median.toFixed(0);
  return [
    ratioLine(
      `one durable entry, ${one} µs`,
      'write + fdatasync of the same bytes',
      spread(ratios),
      'at most 2.5',
      `${rounds} rounds of ${entries}`,
    ),
  ];
}

const draft = (i: number): Draft => ({
  at: '2026-11-25T10:42:07.120+01:00',
  hand: 'OP-02',
  kind: 'checked',
  body: {
    ticket: 'B-1041',
    set: 1,
    step: 'sew-the-sleeves-to-their-lines',
    point: 'sleeve-bore-laid-flat',
    place: 1,
    typed: `27.${i % 10}`,
    value: `27.${i % 10}`,
    unit: 'mm',
    limit: '27 to 29 mm',
    verdict: 'within',
    digest: '0'.repeat(64),
  },
});

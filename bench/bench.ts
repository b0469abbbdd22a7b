/**
 * The figures of the house, each as a ratio against something measured in the same run on the same machine. Nothing is
 * asserted: a slow machine is no fault. `npm run bench` prints them all, `npm run bench -- entry` those whose name has the word.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { durableEntry } from './durable-entry.ts';
import { firstFrame } from './first-frame.ts';
import { keyToFrame } from './key-to-frame.ts';
import { largeLedger } from './large-ledger.ts';
import { memory } from './memory.ts';
import { pictures } from './pictures.ts';
import { proofreading } from './proofreading.ts';
import { run } from './run.ts';
import { whoCommand } from './who-command.ts';

const rows = { firstFrame, whoCommand, keyToFrame, durableEntry, pictures, proofreading, memory, largeLedger };
const wanted = process.argv[2]?.toLowerCase() ?? '';

const folder = mkdtempSync(join(tmpdir(), 'walkfoot-bench-'));
try {
  await run(['demo', join(folder, 'room')]);
  console.log('what | against | ratio, median (least to most) | aim | runs');
  for (const [name, row] of Object.entries(rows)) {
    if (!name.toLowerCase().includes(wanted)) continue;
    for (const line of await row(folder)) console.log(line);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

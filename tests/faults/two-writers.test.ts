import { once } from 'node:events';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { expect, it } from 'vitest';
import { tempFolder } from '../storage/temp-folder.ts';
import { expectWhole } from './expect-whole.ts';
import { startWriter } from './writer.ts';

it('lets two programs write 600 times to one ledger that neither of them finds there', async () => {
  const file = join(tempFolder(), 'ledger.db');
  const writers = ['OP-01', 'OP-02'].map((name) => startWriter({ file, name, count: 300 }));
  expect(await Promise.all(writers.map(({ ended }) => ended))).toEqual([0, 0]);
  const told = writers.map(({ acknowledged }) => acknowledged);
  expect(await expectWhole(file, ...told)).toBe(1_200);
  expect(told.map(({ size }) => size)).toEqual([600, 600]);
  expect(new Set(told.flatMap((each) => [...each.keys()])).size).toBe(1_200);
});

it('lets four threads make each of a hundred ledgers at the same moment', async () => {
  const threads = 4;
  const workerData = { folder: tempFolder(), rounds: 100, threads, arrived: new Int32Array(new SharedArrayBuffer(4)) };
  const script = join(import.meta.dirname, 'opening-worker.ts');
  const answers = Array.from({ length: threads }, async () => {
    const [failures] = await once(new Worker(script, { workerData }), 'message');
    return failures;
  });
  expect((await Promise.all(answers)).flat()).toEqual([]);
});

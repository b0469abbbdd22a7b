// Run as a worker thread: opens one new ledger after the other, each at the same moment as its fellow threads.

import { join } from 'node:path';
import { parentPort, workerData } from 'node:worker_threads';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';

const { folder, rounds, threads, arrived } = workerData as {
  readonly folder: string;
  readonly rounds: number;
  readonly threads: number;
  readonly arrived: Int32Array;
};

const failures: string[] = [];
for (let round = 0; round < rounds; round += 1) {
  Atomics.add(arrived, 0, 1);
  while (Atomics.load(arrived, 0) < threads * (round + 1)) {
    // The threads spin, for a thread that sleeps wakes too late to collide.
  }
  try {
    await openLedger(join(folder, `${round}.db`), { station: 'table-1' }).close();
  } catch (error) {
    failures.push(String(error));
  }
}
parentPort?.postMessage(failures);

import { join } from 'node:path';
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

it('lets eight programs make one ledger at the same moment', async () => {
  const file = join(tempFolder(), 'ledger.db');
  const writers = Array.from({ length: 8 }, (_, n) => startWriter({ file, name: `OP-${n}` }));
  expect(await Promise.all(writers.map(({ ended }) => ended))).toEqual(writers.map(() => 0));
  expect(await expectWhole(file, ...writers.map(({ acknowledged }) => acknowledged))).toBe(8);
});

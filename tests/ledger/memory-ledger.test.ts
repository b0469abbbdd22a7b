import { expect, it } from 'vitest';
import { memoryLedger } from '../../src/ledger/memory-ledger.ts';
import { draft, ledgerContract } from '../storage/ledger-contract.ts';

ledgerContract('memory', () => ({ open: async () => memoryLedger('table-1') }));

it('goes on after the entries it was given, without touching them', async () => {
  const real = memoryLedger('table-1');
  await real.append(-1, [draft('opened'), draft('checked')]);
  const rehearsal = memoryLedger('table-1', await real.read({}));
  expect((await rehearsal.append(1, [draft('noted')])).outcome).toBe('appended');
  expect([await rehearsal.head(), await real.head()]).toEqual([2, 1]);
});

import fc from 'fast-check';
import { it } from 'vitest';
import { anyReceipt, expectUntouchedOrRefused } from './any-receipt.ts';

it('is refused and never throws in 100,000 ways of changing it', () => {
  fc.assert(fc.property(anyReceipt, expectUntouchedOrRefused), { numRuns: 100_000 });
});

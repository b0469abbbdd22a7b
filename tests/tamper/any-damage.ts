import fc from 'fast-check';
import type { Damaged } from './flipped.ts';

const place = fc.nat({ max: 0x7fff_ffff });

/** Turns one bit over, anywhere in the file, so many times. */
export const flips = ({ bytes, expectFoundOrUnharmed }: Damaged, numRuns: number): Promise<void> =>
  fc.assert(
    fc.asyncProperty(place, fc.nat(7), async (where, bit) => {
      const changed = Buffer.from(bytes);
      const at = where % bytes.length;
      changed[at] = (changed[at] ?? 0) ^ (1 << bit);
      await expectFoundOrUnharmed(changed);
    }),
    { numRuns },
  );

/** Writes another byte in the place of one, anywhere in the file. */
export const otherBytes = ({ bytes, expectFoundOrUnharmed }: Damaged, numRuns: number): Promise<void> =>
  fc.assert(
    fc.asyncProperty(place, fc.nat(255), async (where, byte) => {
      const changed = Buffer.from(bytes);
      changed[where % bytes.length] = byte;
      await expectFoundOrUnharmed(changed);
    }),
    { numRuns },
  );

/** Cuts the file off anywhere; what is left is never taken for the whole. SQLite takes a single byte for an empty file, so it begins with two. */
export const cuts = ({ bytes, expectFoundOrUnharmed }: Damaged, numRuns: number): Promise<void> =>
  fc.assert(
    fc.asyncProperty(place, async (where) => {
      const length = 2 + (where % (bytes.length - 2));
      const outcome = await expectFoundOrUnharmed(bytes.subarray(0, length));
      if (outcome !== 'found') throw new Error(`${length} of ${bytes.length} bytes are said to be intact`);
    }),
    { numRuns },
  );

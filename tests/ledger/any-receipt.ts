import fc from 'fast-check';
import { expect } from 'vitest';
import { checkReceipt } from '../../src/ledger/receipt.ts';
import { receipt, verifier } from './receipt-story.ts';

const lines = receipt.split('\n');
const word = fc.constantFrom('ticket', 'entries', 'text', 'entry', 'path', 'checkpoint', '—', 'walkfoot receipt 1');
const anyLine = fc.oneof(
  fc.constantFrom(...lines),
  fc.tuple(word, fc.json()).map(([first, rest]) => `${first} ${rest}`),
  fc.tuple(word, fc.array(fc.nat())).map(([first, rest]) => [first, ...rest].join(' ')),
  fc.string({ unit: 'binary' }),
);

/** Receipts with a piece put in or cut out, with their lines in any order and strange ones between, and texts that are none. */
export const anyReceipt: fc.Arbitrary<string> = fc.oneof(
  fc
    .tuple(fc.nat(receipt.length), fc.nat(40), fc.string({ unit: 'binary', maxLength: 8 }))
    .map(([at, cut, put]) => receipt.slice(0, at) + put + receipt.slice(at + cut)),
  fc.shuffledSubarray(lines.slice(1), { minLength: 1 }).map((some) => [lines[0], ...some, ''].join('\n')),
  fc.tuple(fc.nat(lines.length), fc.nat(2), anyLine).map(([at, cut, put]) => lines.toSpliced(at, cut, put).join('\n')),
  fc.array(anyLine).map((some) => `${[lines[0], ...some].join('\n')}\n`),
  fc.string({ unit: 'binary' }),
);

/** Nothing is taken for a receipt but what was signed; that somebody else signs below, or the same line stands twice, harms nobody. */
export function expectUntouchedOrRefused(text: string): void {
  if (checkReceipt(text, verifier).ok) expect(signedPart(text)).toBe(signedPart(receipt));
  else expect(text).not.toBe(receipt);
}

const signedPart = (text: string): string => text.slice(0, text.lastIndexOf('\n\n'));

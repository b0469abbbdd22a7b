import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Checkpoint, openCheckpoint } from '../../src/ledger/checkpoint.ts';
import { checkReceipt, makeReceipt } from '../../src/ledger/receipt.ts';
import { sealEntry } from '../../src/ledger/seal-entry.ts';
import { anyReceipt, expectUntouchedOrRefused } from './any-receipt.ts';
import { checkpointAt, key, ledger, receipt, receiptOf, tampered, verifier, written } from './receipt-story.ts';
import { treeOf } from './tree-of.ts';

/** The rule that refuses the receipt and its sentence, or what the receipt says. */
const check = (text: string) => {
  const checked = checkReceipt(text, verifier);
  return checked.ok ? checked.value : checked.error;
};

it('tells a stranger what the bundle’s entries are, and of which ledger', () => {
  expect(check(receipt)).toMatchObject({
    ticket: 'B-1041',
    entries: ledger.map(({ entry }) => entry).filter(({ body }) => body.ticket === 'B-1041'),
    texts: ['ab'.repeat(32)],
    checkpoint: { origin: 'table-1', size: 10 },
  });
});

it('is written after any number of entries, each in the smallest tree it stands in too', () => {
  for (let size = 1; size <= ledger.length; size++) {
    const read = check(written('B-1041', { size }));
    expect(read).toMatchObject({ checkpoint: { size }, entries: { length: Math.ceil(size / 2) } });
  }
});

it.each(tampered)('finds %s', (_, text, rule, beginning) => {
  expect(text).not.toBe(receipt);
  expect(check(text)).toMatchObject({ rule, message: expect.stringMatching(new RegExp(`^${beginning}`)) });
});

it('finds any bit turned over', () => {
  const bytes = Buffer.from(receipt);
  for (let at = 0; at < bytes.length; at++) {
    const changed = Buffer.from(bytes);
    changed[at] = (changed[at] ?? 0) ^ (1 << (at % 8));
    expect(check(changed.toString()), `byte ${at}`).toHaveProperty('rule');
  }
});

it('tells line ends changed on the way from tampering', () => {
  expect(check(receipt.replaceAll('\n', '\r\n'))).toHaveProperty('rule', 'receipt-lines');
});

it('is not written from a ledger in which an entry was edited after the checkpoint', () => {
  const entry = ledger[4]?.entry;
  const edited = ledger.with(4, sealEntry('table-1', 4, { ...(entry ?? expect.fail()), hand: 'OP-03' }));
  const made = receiptOf('B-1041', { lines: edited, checkpoint: checkpointAt(10) });
  expect(made).toMatchObject({ error: { rule: 'receipt-path', message: expect.stringContaining('Entry ') } });
});

it('is not written of a bundle without entries', () => {
  expect(receiptOf('B-1043')).toMatchObject({ error: { rule: 'receipt-empty' } });
});

it('is not written with an entry younger than its checkpoint, nor with entries of another table', () => {
  const tree = { size: ledger.length, nodeAt: treeOf(ledger.map(({ leaf }) => leaf)) };
  const younger = { ticket: 'B-1041', entries: ledger.slice(8, 9), tree, checkpoint: checkpointAt(5) };
  expect(makeReceipt(younger, key)).toMatchObject({ error: { rule: 'receipt-younger' } });
  const lines = ledger.map(({ entry }) => sealEntry('table-2', entry.seq, entry));
  expect(receiptOf('B-1041', { lines })).toMatchObject({ error: { rule: 'receipt-station' } });
});

describe('against a checkpoint kept from earlier', () => {
  const older = (size: number): Checkpoint => {
    const read = openCheckpoint(checkpointAt(size), verifier);
    return read.ok ? read.value : expect.fail();
  };
  const since = (text: string, checkpoint: Checkpoint) => {
    const checked = checkReceipt(text, verifier, checkpoint);
    return checked.ok ? 'good' : checked.error.rule;
  };

  it('shows that the ledger only grew', () => {
    for (let size = 1; size <= ledger.length; size++) {
      const text = written('B-1041', { since: size });
      expect(since(text, older(size))).toBe('good');
      expect(since(text, { ...older(size), root: older((size % 9) + 1).root })).toBe('receipt-since');
    }
  });

  it('finds one that does not show it, shows it of another, or is of another ledger', () => {
    expect(since(receipt, older(4))).toBe('receipt-since');
    expect(since(receipt, older(ledger.length))).toBe('good');
    expect(since(written('B-1041', { since: 5 }), older(4))).toBe('receipt-since');
    expect(since(written('B-1041', { since: 4 }), { ...older(4), origin: 'table-2' })).toBe('receipt-since');
  });
});

it('is refused and never throws, whatever is done to it', () => {
  fc.assert(fc.property(anyReceipt, expectUntouchedOrRefused), { numRuns: 2_000 });
});

it('is not read at all when no bundle is that long', () => {
  expect(check(receipt + '\n'.repeat(17_000_000))).toHaveProperty('rule', 'note-long');
});

import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { signCheckpoint } from '../../src/ledger/checkpoint.ts';
import { leafDigest } from '../../src/ledger/leaf.ts';
import { readVerifierKey, verifierKeyText } from '../../src/ledger/note-key.ts';
import { checkReceipt } from '../../src/ledger/receipt.ts';
import { readReceiptText, receiptText } from '../../src/ledger/receipt-text.ts';
import { signNote } from '../../src/ledger/signed-note.ts';
import { keyFromSeed } from '../ledger/key-from-seed.ts';
import { verifier } from '../ledger/receipt-story.ts';
import { pythonSays } from './python-says.ts';

const page = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8');
const block = (name: string): string => page.split(`\n\`\`\`text ${name}\n`)[1]?.split('```\n')[0] ?? expect.fail(name);
const word = block('key');
const receipt = block('receipt');
const [, seed = ''] = /from the seed `([0-9a-f]{64})`/.exec(page) ?? [];
const [, first, third, root] = /Leaves 0 and 2 are `(.+)` and\n`(.+)`, the root is\n`(.+)`/.exec(page) ?? [];

it('is intact, as the page says', () => {
  const key = readVerifierKey(word);
  const checked = checkReceipt(receipt, key.ok ? key.value : expect.fail());
  expect(checked).toMatchObject({
    ok: true,
    value: { ticket: 'B-1041', checkpoint: { origin: 'table-1', size: 3, root } },
  });
});

it('has the leaves and the key that the page gives', () => {
  expect(verifierKeyText(verifier)).toBe(word.trim());
  const read = readReceiptText(receipt);
  expect(read.ok && read.value.lines.map(({ text }) => leafDigest(text))).toEqual([first, third]);
});

it('comes out byte for byte when it is written and signed again', () => {
  const key = keyFromSeed('table-1', seed);
  const read = readReceiptText(receipt);
  const checked = checkReceipt(receipt, verifier);
  if (!read.ok || !checked.ok) return expect.fail();
  const checkpoint = signCheckpoint(checked.value.checkpoint, key);
  expect(signNote(receiptText({ ...read.value, checkpoint }), key)).toBe(receipt);
});

it('is intact for the other verifier too, and with any letter changed it is not', () => {
  expect(pythonSays(receipt, word).said).toMatch(/^intact: 2 entries of B-1041, in a ledger of 3 entries of table-1\n/);
  for (let at = 0; at < receipt.length; at++) {
    const changed = receipt.slice(0, at) + (receipt[at] === 'x' ? 'y' : 'x') + receipt.slice(at + 1);
    expect(checkReceipt(changed, verifier).ok, `letter ${at}`).toBe(false);
  }
});

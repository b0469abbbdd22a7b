import { signCheckpoint } from '../../src/ledger/checkpoint.ts';
import type { Draft } from '../../src/ledger/entry.ts';
import type { StoredEntry } from '../../src/ledger/ledger-store.ts';
import { type SigningKey, verifierOf } from '../../src/ledger/note-key.ts';
import { makeReceipt } from '../../src/ledger/receipt.ts';
import { readReceiptText, receiptText } from '../../src/ledger/receipt-text.ts';
import { sealEntry } from '../../src/ledger/seal-entry.ts';
import { signNote } from '../../src/ledger/signed-note.ts';
import { emptyFrontier, grown, rootOf } from '../../src/ledger/tree.ts';
import { keyFromSeed } from './key-from-seed.ts';
import { treeOf } from './tree-of.ts';

/** The key of these tests and of the example in DEVELOPERS.md; its seed is no secret. */
export const key = keyFromSeed('table-1', '01'.repeat(32));
export const verifier = verifierOf(key);

const text = 'ab'.repeat(32);
const kinds = ['ticketed', 'opened', 'checked', 'checked', 'finished'] as const;

/** Two bundles sewn turn by turn at one table. */
export const ledger: readonly StoredEntry[] = kinds
  .flatMap((kind, turn) => [line('B-1041', kind, turn), line('B-1042', kind, turn)])
  .map((draft, seq) => sealEntry('table-1', seq, draft));

function line(ticket: string, kind: string, turn: number): Draft {
  const digest = kind === 'opened' || kind === 'checked' ? { digest: text } : {};
  return {
    at: `2026-11-25T10:0${turn}:00+01:00`,
    hand: 'OP-02',
    kind,
    body: { ticket, turn, ...(turn > 0 && { nth: turn }), ...digest },
  };
}

export const checkpointAt = (size: number, by: SigningKey = key, lines: readonly StoredEntry[] = ledger): string => {
  const tree = lines.slice(0, size).reduce((all, { leaf }) => grown(all, leaf), emptyFrontier);
  return signCheckpoint({ size, root: rootOf(tree) }, by);
};

/** The receipt of a bundle as the table would write it after so many entries. */
export function receiptOf(
  ticket: string,
  {
    size = ledger.length,
    lines = ledger,
    by = key,
    checkpoint = checkpointAt(size, by, lines),
    since,
  }: Partial<{ size: number; lines: readonly StoredEntry[]; by: SigningKey; checkpoint: string; since: number }> = {},
) {
  const entries = lines.slice(0, size).filter(({ entry }) => entry.body.ticket === ticket);
  const tree = { size, nodeAt: treeOf(lines.slice(0, size).map(({ leaf }) => leaf)) };
  return makeReceipt({ ticket, entries, tree, checkpoint, ...(since === undefined ? {} : { since }) }, by);
}

/** The receipt, where nothing should keep it from being written. */
export function written(ticket: string, options: Parameters<typeof receiptOf>[1] = {}): string {
  const made = receiptOf(ticket, options);
  if (!made.ok) throw new Error(made.error.message);
  return made.value;
}

export const receipt = written('B-1041');
const sister = written('B-1042');

/** Lines of the receipt, from 0: head, ticket, entries, text, then an entry and its path by turns (seq 0, 2, 4, 6, 8). */
const lineOf = (seq: number): number => 4 + seq;
const change = (how: (lines: string[]) => readonly string[]): string => how(receipt.split('\n')).join('\n');
const blockOf = (of: string, at: number): readonly string[] => of.split('\n').slice(at, at + 2);

/** The same bundle, another ledger: everything fits together, but the key is somebody else's of that name. */
const forged = written('B-1041', { by: keyFromSeed('table-1', '02'.repeat(32)) });
const [forgedCheckpoint = ''] = /(?<=\ncheckpoint\n)[\s\S]*?\n\n.*\n/.exec(forged) ?? [];
const checkpoint = checkpointAt(ledger.length);

/** The receipt without its third entry, signed by the station itself, which would have to lie to do so. */
const leftOut = ((): string => {
  const read = readReceiptText(receipt);
  if (!read.ok) throw new Error(read.error.message);
  const { seqs, lines } = read.value;
  return signNote(receiptText({ ...read.value, seqs: seqs.toSpliced(2, 1), lines: lines.toSpliced(2, 1) }), key);
})();

/** Ways to tamper with the receipt, the rule that finds each, and how the sentence about it begins. */
export const tampered: readonly (readonly [string, string, string, string])[] = [
  ['an entry edited', receipt.replace('"turn":2', '"turn":3'), 'receipt-path', 'Entry 4 or its path was changed'],
  ['an entry that is no JSON', receipt.replace('"turn":2', '"turn":'), 'receipt-entry', 'Entry 4 was changed'],
  ['an entry dropped', change((all) => all.toSpliced(lineOf(4), 2)), 'receipt-missing', 'Entry 4 is missing'],
  [
    'the last entry dropped, from the list too',
    change((all) => all.toSpliced(lineOf(8), 2).with(2, 'entries 0 2 4 6')),
    'note-signature',
    'The receipt was changed after it was signed',
  ],
  [
    'two entries swapped',
    change((all) => all.toSpliced(lineOf(4), 4, ...blockOf(receipt, lineOf(6)), ...blockOf(receipt, lineOf(4)))),
    'receipt-order',
    'Entry 6 is not in its place',
  ],
  [
    'two entries swapped, in the list too',
    change((all) =>
      all
        .toSpliced(lineOf(4), 4, ...blockOf(receipt, lineOf(6)), ...blockOf(receipt, lineOf(4)))
        .with(2, 'entries 0 2 6 4 8'),
    ),
    'receipt-list',
    'Entry 4 is not in its place in the receipt’s list',
  ],
  [
    'an entry twice',
    change((all) => all.toSpliced(lineOf(4), 0, ...blockOf(receipt, lineOf(4)))),
    'receipt-twice',
    'Entry 4 is there twice',
  ],
  [
    'an entry of another bundle put in',
    change((all) => all.toSpliced(lineOf(6), 0, ...blockOf(sister, lineOf(4))).with(2, 'entries 0 2 4 5 6 8')),
    'receipt-ticket',
    'Entry 5 is not of the bundle B-1041',
  ],
  [
    'an entry put in that the list does not have',
    change((all) => all.toSpliced(lineOf(6), 0, ...blockOf(sister, lineOf(4)))),
    'receipt-added',
    'Entry 5 is not in the receipt’s list',
  ],
  ['an entry left out by the owner, who signs anew', leftOut, 'receipt-gap', 'An entry before entry 6 was left out'],
  ['another ticket', receipt.replace('ticket "B-1041"', 'ticket "B-1042"'), 'receipt-ticket', 'Entry 0 is not of'],
  [
    'the path of another entry',
    change((all) => all.with(lineOf(4) + 1, all[lineOf(6) + 1] ?? '')),
    'receipt-path',
    'Entry 4 or its path was changed',
  ],
  [
    'a path cut short',
    change((all) => all.with(lineOf(4) + 1, (all[lineOf(4) + 1] ?? '').replace(/ [^ ]+$/, ''))),
    'receipt-path',
    'Entry 4 or its path was changed',
  ],
  [
    'an older checkpoint',
    receipt.replace(checkpoint, checkpointAt(5)),
    'receipt-path',
    'Entry 0 or its path was changed',
  ],
  [
    'a checkpoint of a size made up',
    receipt.replace('\n10\n', '\n11\n'),
    'note-signature',
    'The checkpoint was changed',
  ],
  [
    'a checkpoint of another key',
    receipt.replace(checkpoint, forgedCheckpoint),
    'note-key',
    'The checkpoint is signed with another key',
  ],
  ['everything made anew with another key', forged, 'note-key', 'The checkpoint is signed with another key'],
  ['a text left out', change((all) => all.toSpliced(3, 1)), 'receipt-text', 'Entry 2 was played from a text'],
  [
    'a text added',
    change((all) => all.toSpliced(4, 0, `text ${'cd'.repeat(32)}`)),
    'receipt-text',
    'The receipt lists texts that the bundle was not played from',
  ],
  [
    'a signature of the checkpoint damaged',
    receipt.replace(/(— table-1 .{20}).(.*\n\n|.*\n(?=\n))/, (_, a: string, b: string) => `${a}*${b}`),
    'note-form',
    'The checkpoint has a signature that cannot be read',
  ],
  ['the receipt cut off', receipt.slice(0, 900), 'receipt-form', 'The receipt was changed or cut off: its line'],
  [
    'its own signature cut off',
    receipt.slice(0, receipt.lastIndexOf('\n\n') + 1),
    'note-form',
    'The checkpoint is cut off',
  ],
  ['another version', receipt.replace('receipt 1', 'receipt 2'), 'receipt-version', 'This receipt is of a form'],
];

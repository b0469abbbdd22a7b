import type { Digest } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { fromBase64, toBase64 } from './base64.ts';
import { canonicalText } from './canonical.ts';
import { LONGEST_NOTE } from './signed-note.ts';
import { isDigest } from './tree.ts';

/** What stands in a receipt above its signature. DEVELOPERS.md has the form with an example. */
export interface ReceiptText {
  readonly ticket: string;
  /** Seqs of the entries, as they are listed at the top. */
  readonly seqs: readonly number[];
  /** Digests of the texts that the bundle was played from. */
  readonly texts: readonly Digest[];
  readonly lines: readonly ReceiptLine[];
  /** What shows that the ledger grew from an older checkpoint, where that was asked for. */
  readonly grew: { readonly size: number; readonly path: readonly Digest[] } | undefined;
  /** A signed note. */
  readonly checkpoint: string;
}

interface ReceiptLine {
  /** The entry's canonical text. */
  readonly text: string;
  readonly path: readonly Digest[];
}

export const receiptText = ({ ticket, seqs, texts, lines, grew, checkpoint }: ReceiptText): string =>
  [
    HEAD,
    `ticket ${canonicalText(ticket)}`,
    ['entries', ...seqs].join(' '),
    ...texts.map((digest) => `text ${digest}`),
    ...lines.flatMap(({ text, path }) => [`entry ${text}`, ['path', ...path.map(inBase64)].join(' ')]),
    ...(grew ? [['grew', grew.size, ...grew.path.map(inBase64)].join(' ')] : []),
    'checkpoint',
    checkpoint,
  ].join('\n');

/** Reads a receipt with its signature below, which it leaves alone. Refuses every other form. Never throws. */
export function readReceiptText(receipt: string): Result<ReceiptText> {
  if (receipt.length > LONGEST_NOTE) return refuse('note-long', 'The receipt is longer than this program reads.');
  // A mail program's line ends, told apart because they are no tampering.
  if (receipt.includes('\r'))
    return refuse('receipt-lines', 'The receipt had its line ends changed on the way: send it as a file, not as text.');
  const lines = receipt.slice(0, receipt.lastIndexOf('\n\n') + 1).split('\n');
  if (!receipt.startsWith('walkfoot receipt ')) return refuse('receipt-form', 'This file is no receipt.');
  if (!receipt.startsWith(`${HEAD}\n`))
    return refuse('receipt-version', 'This receipt is of a form this version does not know: use a newer version.');
  const ticket = jsonString(after('ticket', lines[1]) ?? '');
  const seqs = after('entries', lines[2])?.split(' ').map(toSeq) ?? [];
  if (ticket === undefined) return damaged(2);
  if (seqs.length === 0 || seqs.includes(undefined)) return damaged(3);
  let at = 3;
  const texts: Digest[] = [];
  for (let text = after('text', lines[at]); text !== undefined; text = after('text', lines[++at])) {
    if (!isDigest(text)) return damaged(at + 1);
    texts.push(text);
  }
  const entries: ReceiptLine[] = [];
  for (let text = after('entry', lines[at]); text !== undefined; text = after('entry', lines[at])) {
    const path = toPath(lines[at + 1] ?? '');
    if (path === undefined) return damaged(at + 2);
    entries.push({ text, path });
    at += 2;
  }
  let grew: ReceiptText['grew'];
  const since = after('grew', lines[at]);
  if (since !== undefined) {
    const [size = '', ...hashes] = since.split(' ');
    const path = toPath(['path', ...hashes].join(' '));
    const from = toSeq(size);
    if (path === undefined || from === undefined) return damaged(at + 1);
    grew = { size: from, path };
    at++;
  }
  if (lines[at] !== 'checkpoint') return damaged(at + 1);
  return ok({
    ticket,
    seqs: seqs.filter((seq) => seq !== undefined),
    texts,
    lines: entries,
    grew,
    checkpoint: lines.slice(at + 1).join('\n'),
  });
}

const HEAD = 'walkfoot receipt 1';

const damaged = (line: number): Result<never> =>
  refuse('receipt-form', `The receipt was changed or cut off: its line ${line} cannot be read.`);

const after = (word: string, line = ''): string | undefined =>
  line.startsWith(`${word} `) ? line.slice(word.length + 1) : undefined;

const toSeq = (text: string): number | undefined =>
  /^(0|[1-9]\d{0,15})$/.test(text) && Number.isSafeInteger(Number(text)) ? Number(text) : undefined;

const inBase64 = (digest: Digest): string => toBase64(Buffer.from(digest, 'hex'));

function toPath(line: string): readonly Digest[] | undefined {
  const [word, ...encoded] = line.split(' ');
  const bytes = encoded.map(fromBase64);
  if (word !== 'path' || !bytes.every((one) => one?.length === 32)) return undefined;
  return bytes.flatMap((one) => (one ? [one.toString('hex') as Digest] : []));
}

/** A JSON string in its canonical form. */
function jsonString(text: string): string | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'string' && canonicalText(value) === text ? value : undefined;
  } catch {
    return undefined;
  }
}

import * as z from 'zod/mini';
import { ok, type Result, refuse } from '../base/result.ts';
import { provesConsistency, provesInclusion } from './check-proof.ts';
import { type Checkpoint, readCheckpoint } from './checkpoint.ts';
import { decodeEntry } from './decode-entry.ts';
import type { Entry } from './entry.ts';
import { leafBytes } from './leaf.ts';
import type { LedgerTree, StoredEntry } from './ledger-store.ts';
import { openNote, type VerifierKey } from './signed-note.ts';
import { consistencyPath, inclusionPath } from './tree.ts';

/** What a receipt shows: one bundle, as far as it had come when the checkpoint was signed. */
export interface Receipt {
  readonly ticket: string;
  readonly checkpoint: Checkpoint;
  /** The bundle's entries, from its ticket on, and the releases of the text it was sewn on. */
  readonly entries: readonly Entry[];
  /** Whether its last entry says that it is finished. What came after an unfinished end cannot be known from a receipt. */
  readonly finished: boolean;
}

export interface ReceiptParts {
  readonly ticket: string;
  /** In order of seq; all of them below the checkpoint's size. */
  readonly entries: readonly StoredEntry[];
  /** A signed checkpoint over the first `tree.size` entries. */
  readonly note: string;
  readonly tree: LedgerTree;
  /** Sizes of older checkpoints that the ledger is to be proved to have grown from. */
  readonly older: readonly number[];
}

/** The text of a receipt. Its form is told, with an example, in DEVELOPERS.md. */
export function writeReceipt({ ticket, entries, note, tree, older }: ReceiptParts): string {
  const { size, nodeAt } = tree;
  const lines = entries.map(({ entry, text }) => ({ text, path: inclusionPath(nodeAt, entry.seq, size).map(base64) }));
  const grew = older.map((from) => ({ size: from, path: consistencyPath(nodeAt, from, size).map(base64) }));
  const list = (all: readonly object[]): string => `[\n${all.map((each) => JSON.stringify(each)).join(',\n')}\n]`;
  return `{"receipt":${VERSION},
"ticket":${JSON.stringify(ticket)},
"checkpoint":${JSON.stringify(note)},
"entries":${list(lines)},
"grewFrom":${list(grew)}}
`;
}

/**
 * Reads a receipt and checks all of it: the checkpoint's signature by `key`, that every entry is in the tree, that the bundle's
 * entries are whole, from its ticket on and without a gap, and, where an older checkpoint is given, that the ledger only grew since.
 * The refusal is the first thing that is wrong. Never throws.
 */
export function checkReceipt(text: string, key: VerifierKey, since?: Checkpoint): Result<Receipt> {
  const read = shapeIn(text);
  if (!read.ok) return read;
  const { ticket, checkpoint: note, entries, grewFrom } = read.value;
  const signed = openNote(note, [key]);
  if (!signed.ok) return refuse('receipt-checkpoint', `The checkpoint does not hold. ${signed.error.message}`);
  const checkpoint = readCheckpoint(signed.value);
  if (!checkpoint.ok) return checkpoint;
  const { origin, size, root } = checkpoint.value;
  if (origin !== key.name)
    return refuse('receipt-checkpoint', `The checkpoint is one of ${origin}, not of ${key.name}.`);

  const found: Entry[] = [];
  for (const [place, { text: line, path }] of entries.entries()) {
    const entry = decodeEntry(line);
    if (!entry.ok) return refuse('receipt-entry', `Line ${place + 1} of the entries: ${entry.error.message}`);
    const { seq, station } = entry.value;
    if (station !== origin) return refuse('receipt-entry', `Entry ${seq} is of another station, ${station}.`);
    if (seq <= (found.at(-1)?.seq ?? -1))
      return refuse('receipt-order', `Entry ${seq} stands in the wrong place, or twice.`);
    const proof = { leaf: leafBytes(line), index: seq, size, root, path: path.map(bytes) };
    if (!provesInclusion(proof))
      return refuse('receipt-proof', `Entry ${seq} is not the one in the ledger: it, or its path, was changed.`);
    found.push(entry.value);
  }

  const own = found.filter(({ body }) => body.ticket === ticket);
  const [first, ...rest] = own;
  if (first?.kind !== 'ticketed')
    return refuse('receipt-gap', `The entry that made the ticket ${ticket} is not there.`);
  const missing = rest.findIndex(({ body }, place) => body.nth !== place + 1);
  if (missing >= 0) return refuse('receipt-gap', `Entry ${missing + 1} of ${ticket} after its ticket is not there.`);

  if (since) {
    const proof = grewFrom.find((each) => each.size === since.size);
    if (since.origin !== origin)
      return refuse('receipt-history', `The older checkpoint is one of ${since.origin}, not of ${origin}.`);
    const claim = { older: since.size, olderRoot: since.root, size, root, path: proof?.path.map(bytes) ?? [] };
    if (!proof && since.size !== size)
      return refuse(
        'receipt-history',
        `This receipt does not prove that the ledger grew from the ${since.size} entries of the older checkpoint: ask for one that does.`,
      );
    if (!provesConsistency(claim))
      return refuse(
        'receipt-history',
        `The ledger did not grow from the ${since.size} entries of the older checkpoint: its history was changed.`,
      );
  }
  return ok({ ticket, checkpoint: checkpoint.value, entries: found, finished: own.at(-1)?.kind === 'finished' });
}

/** The signed checkpoint in a receipt, unchecked. */
export function noteIn(text: string): Result<string> {
  const read = shapeIn(text);
  return read.ok ? ok(read.value.checkpoint) : read;
}

const VERSION = 1;
/** 32-byte hashes in base64, at most one for each level of a tree that fits into a number. */
const hashes = z.array(z.string().check(z.regex(/^[A-Za-z0-9+/]{43}=$/))).check(z.maxLength(64));
const Shape = z.strictObject({
  receipt: z.literal(VERSION),
  ticket: z.string().check(z.minLength(1)),
  checkpoint: z.string(),
  entries: z.array(z.strictObject({ text: z.string(), path: hashes })),
  grewFrom: z.array(z.strictObject({ size: z.int().check(z.positive()), path: hashes })),
});

function shapeIn(text: string): Result<z.infer<typeof Shape>> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return refuse('receipt-unreadable', 'This is no receipt: it is not JSON, or it was cut off.');
  }
  const shape = Shape.safeParse(json);
  if (shape.success) return ok(shape.data);
  const where = shape.error.issues[0]?.path.join('.') || 'its head';
  return refuse('receipt-unreadable', `This is no receipt as this version writes it, at ${where}.`);
}

const base64 = (hash: Uint8Array): string => Buffer.from(hash).toString('base64');
const bytes = (text: string): Uint8Array => Buffer.from(text, 'base64');

import type { Digest } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { type Checkpoint, openCheckpoint } from './checkpoint.ts';
import { consistencyRanges, verifyConsistency } from './consistency.ts';
import { decodeEntry } from './decode-entry.ts';
import type { Entry } from './entry.ts';
import { inclusionRanges, verifyInclusion } from './inclusion.ts';
import { leafDigest } from './leaf.ts';
import type { LedgerTree, StoredEntry } from './ledger-store.ts';
import { type SigningKey, type VerifierKey, verifierOf } from './note-key.ts';
import { type ReceiptText, readReceiptText, receiptText } from './receipt-text.ts';
import { openNote, signNote } from './signed-note.ts';
import { isDigest, type Range, rangeRoot } from './tree.ts';

/** One bundle's entries as a stranger may trust them. */
export interface Receipt {
  readonly ticket: string;
  /** In order of seq. */
  readonly entries: readonly Entry[];
  /** Digests of the texts the bundle was played from: of the bytes of the procedure's file. */
  readonly texts: readonly Digest[];
  readonly checkpoint: Checkpoint;
}

export interface ReceiptParts {
  readonly ticket: string;
  /** Every entry of the bundle up to the checkpoint, in order of seq. */
  readonly entries: readonly StoredEntry[];
  /** The tree the checkpoint was signed over. */
  readonly tree: LedgerTree;
  /** A checkpoint as `signCheckpoint` writes it, with the same key. */
  readonly checkpoint: string;
  /** The size of an older checkpoint that the ledger is to be shown to have grown from. */
  readonly since?: number;
}

/**
 * The receipt of a bundle, signed as a whole. It is checked before it is handed out, so that a ledger that was tampered with
 * makes no receipt: the refusal says what is wrong.
 */
export function makeReceipt(
  { ticket, entries, tree, checkpoint, since }: ReceiptParts,
  key: SigningKey,
): Result<string> {
  if (entries.length === 0)
    return refuse('receipt-empty', `The ledger has no entry of ${ticket} up to the checkpoint: look at its label.`);
  const roots = (ranges: readonly Range[]): readonly Digest[] => ranges.map((range) => rangeRoot(tree.nodeAt, range));
  const lines = entries.map(({ text, entry: { seq } }) => ({ text, path: roots(inclusionRanges(seq, tree.size)) }));
  const grew = since === undefined ? undefined : { size: since, path: roots(consistencyRanges(since, tree.size)) };
  const seqs = entries.map(({ entry }) => entry.seq);
  const texts = textsOf(entries.map(({ entry }) => entry));
  const receipt = signNote(receiptText({ ticket, seqs, texts, lines, grew, checkpoint }), key);
  const checked = checkReceipt(receipt, verifierOf(key));
  return checked.ok ? ok(receipt) : checked;
}

/**
 * What a receipt says, when nothing in it was changed since the key's owner wrote it; or the first thing that is wrong. Never
 * throws, and needs neither a ledger nor a room.
 *
 * The paths prove of each entry that it stands in the ledger of the checkpoint, and the entries count themselves (`body.nth`), so
 * that none in the middle can be left out. That none came after the last of them until the checkpoint is the owner's word, given by
 * the signature over the whole receipt; whoever verifies the ledger against the checkpoint in it finds an owner who lied. `since`,
 * a checkpoint kept from earlier, must be one that the receipt shows the ledger to have grown from.
 */
export function checkReceipt(receipt: string, key: VerifierKey, since?: Checkpoint): Result<Receipt> {
  const read = readReceiptText(receipt);
  if (!read.ok) return read;
  const { ticket, seqs, texts } = read.value;
  const checkpoint = openCheckpoint(read.value.checkpoint, key);
  if (!checkpoint.ok) return checkpoint;
  const proved = decoded(read.value);
  if (!proved.ok) return proved;
  const entries = proved.value.map(({ entry }) => entry);
  const wrong =
    wrongOrder(seqs, entries) ??
    firstWrong(proved.value, ticket, checkpoint.value) ??
    wrongCount(entries) ??
    wrongTexts(texts, entries);
  if (wrong) return wrong;
  const signed = openNote('The receipt', receipt, key);
  if (signed.ok && since)
    return (
      wrongHistory(since, checkpoint.value, read.value.grew) ??
      ok({ ticket, entries, texts, checkpoint: checkpoint.value })
    );
  return signed.ok ? ok({ ticket, entries, texts, checkpoint: checkpoint.value }) : signed;
}

type Wrong = Result<never> | undefined;

/** An entry with the bytes and the path that prove it. */
interface Proved {
  readonly entry: Entry;
  readonly text: string;
  readonly path: readonly Digest[];
}

function decoded({ seqs, lines }: ReceiptText): Result<readonly Proved[]> {
  const proved: Proved[] = [];
  for (const [at, { text, path }] of lines.entries()) {
    const entry = decodeEntry(text);
    if (!entry.ok) {
      const name = at < seqs.length ? `Entry ${seqs[at]}` : 'The last entry';
      return refuse('receipt-entry', `${name} was changed: it is not written as a ledger writes it.`);
    }
    proved.push({ entry: entry.value, text, path });
  }
  return ok(proved);
}

function wrongOrder(listed: readonly number[], entries: readonly Entry[]): Wrong {
  const falls = listed.find((seq, at) => at > 0 && seq <= (listed[at - 1] ?? 0));
  if (falls !== undefined) return refuse('receipt-list', `Entry ${falls} is not in its place in the receipt’s list.`);
  const found = entries.map(({ seq }) => seq);
  const promised = new Set(listed);
  const there = new Set<number>();
  for (const seq of found) {
    if (!promised.has(seq))
      return refuse('receipt-added', `Entry ${seq} is not in the receipt’s list, so it was added.`);
    if (there.has(seq)) return refuse('receipt-twice', `Entry ${seq} is there twice.`);
    there.add(seq);
  }
  const gone = listed.find((seq) => !there.has(seq));
  if (gone !== undefined) return refuse('receipt-missing', `Entry ${gone} is missing.`);
  const moved = found.find((seq, at) => seq !== listed[at]);
  if (moved !== undefined) return refuse('receipt-order', `Entry ${moved} is not in its place.`);
  return undefined;
}

function firstWrong(proved: readonly Proved[], ticket: string, checkpoint: Checkpoint): Wrong {
  for (const one of proved) {
    const wrong = wrongEntry(one, ticket, checkpoint);
    if (wrong) return wrong;
  }
  return undefined;
}

function wrongEntry({ entry, text, path }: Proved, ticket: string, { origin, size, root }: Checkpoint): Wrong {
  const { seq, station, body } = entry;
  if (station !== origin)
    return refuse('receipt-station', `Entry ${seq} is of the station ${station}, and the checkpoint is of ${origin}.`);
  if (body.ticket !== ticket) return refuse('receipt-ticket', `Entry ${seq} is not of the bundle ${ticket}.`);
  if (seq >= size)
    return refuse('receipt-younger', `Entry ${seq} is younger than the checkpoint, which was made at ${size} entries.`);
  if (!verifyInclusion({ index: seq, size, leaf: leafDigest(text), path, root }))
    return refuse('receipt-path', `Entry ${seq} or its path was changed: it does not lead to the checkpoint.`);
  return undefined;
}

/** The ticket's own entry is not counted, all others are, from 1. */
function wrongCount(entries: readonly Entry[]): Wrong {
  const gap = entries.findIndex(({ body }, at) => (at === 0 ? body.nth !== undefined : body.nth !== at));
  const at = entries[gap];
  return (
    at &&
    refuse(
      'receipt-gap',
      gap === 0
        ? `Entry ${at.seq} is not the one that made the ticket, so what comes before it was left out.`
        : `An entry before entry ${at.seq} was left out.`,
    )
  );
}

function wrongHistory(since: Checkpoint, now: Checkpoint, grew: ReceiptText['grew']): Wrong {
  if (since.origin !== now.origin)
    return refuse('receipt-since', `The older checkpoint is of ${since.origin} and not of ${now.origin}.`);
  if (grew?.size !== since.size && since.size !== now.size)
    return refuse(
      'receipt-since',
      `The receipt does not show that the ledger grew from the ${since.size} entries of the older checkpoint: ask for one that does.`,
    );
  const claim = { first: since.size, firstRoot: since.root, second: now.size, secondRoot: now.root };
  if (verifyConsistency({ ...claim, path: since.size === now.size ? [] : (grew?.path ?? []) })) return undefined;
  return refuse(
    'receipt-since',
    `The ledger did not grow from the ${since.size} entries of the older checkpoint: its history was changed.`,
  );
}

function wrongTexts(listed: readonly Digest[], entries: readonly Entry[]): Wrong {
  const known = new Set<unknown>(listed);
  const unlisted = entries.find(({ body }) => textsIn(body).some((digest) => !known.has(digest)));
  if (unlisted)
    return refuse('receipt-text', `Entry ${unlisted.seq} was played from a text that the receipt does not list.`);
  const played = textsOf(entries);
  if (listed.length === played.length && listed.every((digest, at) => digest === played[at])) return undefined;
  return refuse(
    'receipt-text',
    'The receipt lists texts that the bundle was not played from, or lists them in another order.',
  );
}

/** Every text that an entry names as the one it was played from, once, in order of the digits. */
const textsOf = (entries: readonly Entry[]): readonly Digest[] =>
  [...new Set(entries.flatMap(({ body }) => textsIn(body)))].sort();

/** The main text, and the sheet in another language that was on the screen. */
const textsIn = ({ digest, sheet }: Entry['body']): readonly Digest[] => [digest, sheet].filter(isText);

const isText = (digest: unknown): digest is Digest => typeof digest === 'string' && isDigest(digest);

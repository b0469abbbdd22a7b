import type { Digest } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { type RecordedEntry, readEntry } from '../bundle/entries.ts';
import { passed } from '../bundle/passed.ts';
import { replay } from '../bundle/replay.ts';
import { type Before, Chain } from '../ledger/chain.ts';
import { decodeEntry } from '../ledger/decode-entry.ts';
import type { LedgerBytes } from '../ledger/ledger-bytes.ts';
import { readVerifierKey, type VerifierKey } from '../ledger/note-key.ts';
import { openNote } from '../ledger/signed-note.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { procedureIn } from './understood.ts';

/** The first thing that is wrong. */
interface LedgerFault {
  /** Seq of the first bad entry; null where it is about the file, a text or a checkpoint. */
  readonly entry: number | null;
  readonly rule: string;
  /** A sentence without its capital and its stop. */
  readonly what: string;
}

export interface LedgerReport {
  readonly station: string;
  /** Null when the ledger is intact. */
  readonly fault: LedgerFault | null;
  /** How many entries were found good, from the first on. */
  readonly entries: number;
  readonly checkpoints: number;
  /** How many entries the last good checkpoint covers. */
  readonly signed: number;
  /** How often an entry has an earlier time than the one before it, by a second or more. */
  readonly clockSetBack: number;
  /** The keys the ledger names, oldest first. */
  readonly keys: readonly string[];
}

/** What is known from elsewhere: a checkpoint that was kept, the key that somebody vouches for. */
export interface Elsewhere {
  readonly since?: { readonly note: string; readonly checkpoint: Before };
  readonly key?: VerifierKey;
}

/**
 * Recomputes a whole ledger from its bytes: every hash and checkpoint, every shape, every rule of the work, every kept text.
 * `step` is told how far it has come, every so often.
 */
export function checkLedger(
  bytes: LedgerBytes,
  { since, key }: Elsewhere,
  step: (entries: number) => void,
): LedgerReport {
  const trouble = bytes.trouble();
  const station = String(bytes.station ?? 'this room');
  if (trouble !== undefined) {
    const fault = { entry: null, rule: 'file', what: trouble };
    return { station, fault, entries: 0, checkpoints: 0, signed: 0, clockSetBack: 0, keys: [] };
  }
  const chain = new Chain(bytes, since?.checkpoint);
  const keys: VerifierKey[] = [];
  const named: string[] = [];
  let last: string | undefined;
  let clockSetBack = 0;
  const rules = replay(readTexts(bytes));

  const report = (fault: LedgerFault | null): LedgerReport => ({
    station,
    fault,
    entries: chain.size,
    checkpoints: chain.signed.checkpoints,
    signed: chain.signed.size,
    clockSetBack,
    keys: named,
  });
  const wrong = (entry: number | null, { rule, message }: { readonly rule: string; readonly message: string }) =>
    report({ entry, rule, what: message });

  const kept = new Set<string>();
  for (const { digest, name, found } of bytes.texts()) {
    if (digest !== found)
      return wrong(null, { rule: 'text', message: `the text or picture kept as ${String(name)} was changed` });
    kept.add(digest);
  }

  for (const row of bytes.entries()) {
    const seq = chain.size;
    if (seq % EVERY === 0) step(seq);
    const entry = entryIn(row, seq, station);
    if (!entry.ok) return wrong(seq, entry.error);
    const read = entry.value;
    const signed = chain.check(keys);
    if (!signed.ok) return wrong(null, signed.error);
    const fault = chain.add(String(row.text), row.leaf);
    if (fault) return wrong(fault.entry, fault);
    if (last !== undefined && passed(last, read.at).setBackMs > 0) clockSetBack++;
    last = read.at;
    const judged = rules.next(read);
    if (!judged.ok) return wrong(seq, judged.error);
    const texts = textsThere(kept, read);
    if (!texts.ok) return wrong(seq, texts.error);
    if (read.kind === 'keyed') {
      const vkey = readVerifierKey(read.body.key);
      if (!vkey.ok || vkey.value.name !== station)
        return wrong(seq, { rule: 'key', message: 'it names a key that is none of this station' });
      keys.push(vkey.value);
      named.push(read.body.key);
    }
  }
  const whole = chain.check(keys);
  if (!whole.ok) return wrong(null, whole.error);
  const end = chain.end(keys);
  if (!end.ok) return wrong(null, end.error);
  if (since && !keys.some((each) => openNote('It', since.note, each).ok))
    return wrong(null, {
      rule: 'history',
      message: 'the checkpoint kept elsewhere was signed with a key that this ledger does not name',
    });
  if (key && !keys.some(({ name, id }) => name === key.name && id === key.id))
    return wrong(null, {
      rule: 'key',
      message: `the ledger was never signed with the key that was given (${key.name})`,
    });
  return report(null);
}

const EVERY = 10_000;

interface Row {
  readonly seq: unknown;
  readonly text: unknown;
}

/** The entry in this row, which must be of this place and station. */
function entryIn({ seq, text }: Row, due: number, station: string): Result<RecordedEntry> {
  if (seq !== due) return refuse('gap', `it is missing: the next one there is ${String(seq)}`);
  if (typeof text !== 'string') return refuse('entry-shape', 'it is no text');
  const entry = decodeEntry(text);
  if (!entry.ok) return refuse(entry.error.rule, unsaid(entry.error.message));
  if (entry.value.seq !== due) return refuse('entry-place', `it says that it is entry ${entry.value.seq}`);
  if (entry.value.station !== station)
    return refuse('entry-station', `it is of another station, ${entry.value.station}`);
  const read = readEntry(entry.value);
  return read.ok ? read : refuse(read.error.rule, unsaid(read.error.message));
}

/** A sentence as the end of another one. */
const unsaid = (sentence: string): string =>
  `${sentence.charAt(0).toLowerCase()}${sentence.slice(1).replace(/\.$/, '')}`;

/** Whether the texts and pictures that a release names are kept. */
function textsThere(kept: ReadonlySet<string>, entry: RecordedEntry): Result<void> {
  if (entry.kind !== 'released') return ok(undefined);
  const { digest, understood, pictures } = entry.body;
  const missing = [digest, understood, ...pictures.map((each) => each.digest)].find((each) => !kept.has(each));
  return missing === undefined
    ? ok(undefined)
    : refuse('text-missing', `the text ${missing.slice(0, 12)}… that it names is not kept`);
}

/** Procedures by the digest of their understanding, each read once. */
function readTexts(bytes: LedgerBytes): (understood: Digest) => Procedure | undefined {
  const read = new Map<Digest, Procedure | undefined>();
  return (understood) => {
    if (!read.has(understood)) {
      const kept = bytes.text(understood);
      read.set(understood, kept && procedureIn(new TextDecoder().decode(kept)));
    }
    return read.get(understood);
  };
}

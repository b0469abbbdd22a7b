import { checkLedger, type Elsewhere } from '../app/check-ledger.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { type Checkpoint, readCheckpoint } from '../ledger/checkpoint.ts';
import { readVerifierKey, type VerifierKey } from '../ledger/note-key.ts';
import { checkReceipt, type Receipt } from '../ledger/receipt.ts';
import { readReceiptText } from '../ledger/receipt-text.ts';
import { openNote, unsignedText } from '../ledger/signed-note.ts';
import { checkedLedger } from '../reports/checked-ledger.ts';
import { openRoomFolder } from '../storage/room-folder.ts';
import { givenFile } from './given-file.ts';
import { folderOf, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say, sayJson } from './io.ts';

interface VerifyOptions extends RoomOption {
  readonly key?: string;
  readonly since?: string;
  readonly json?: boolean;
}

/** Recomputes the room's ledger, or checks a receipt, for which no room is needed. Exit 1 when something is not as it was written. */
export async function verify(file: string | undefined, options: VerifyOptions, io: Io): Promise<ExitCode> {
  const key = options.key === undefined ? undefined : keyFrom(options.key, io);
  if (key && !key.ok) return cannot(io, key.error.message);
  const since = options.since === undefined ? undefined : checkpointFrom(options.since, io);
  if (since && !since.ok) return cannot(io, since.error.message);
  if (key && since) {
    const signed = openNote(options.since ?? '', since.value.note, key.value);
    if (!signed.ok) return cannot(io, signed.error.message);
  }
  if (file === undefined)
    return verifyRoom({ ...(key && { key: key.value }), ...(since && { since: since.value }) }, options, io);
  if (!key)
    return cannot(
      io,
      'A receipt is checked with the station’s key: give it with --key, as the workroom published it and not as it stands in the receipt’s company.',
    );
  const text = textFrom(file, io);
  if (!text.ok) return cannot(io, text.error.message);
  return sayReceipt(checkReceipt(text.value, key.value, since?.value.checkpoint), options, io);
}

async function verifyRoom(elsewhere: Elsewhere, options: VerifyOptions, io: Io): Promise<ExitCode> {
  const room = await openRoomFolder(folderOf(options, io));
  const bytes = room.bytes();
  try {
    const tells = io.stdout.isTTY && !options.json;
    const report = checkLedger(bytes, elsewhere, (entries) => {
      if (tells && entries > 0) io.err(`\r${entries} entries are good so far …`);
    });
    if (tells && report.entries > 10_000) io.err('\r\x1b[K');
    if (options.json) sayJson(io, { intact: report.fault === null, ...report });
    else for (const line of checkedLedger(report)) say(io, line);
    return report.fault ? 1 : 0;
  } finally {
    bytes.close();
  }
}

function sayReceipt(checked: Result<Receipt>, options: VerifyOptions, io: Io): ExitCode {
  if (options.json) {
    const fault = checked.ok ? null : { rule: checked.error.rule, what: checked.error.message };
    sayJson(io, { intact: checked.ok, fault, ...(checked.ok ? checked.value : {}) });
  } else if (checked.ok) {
    const { ticket, entries, checkpoint } = checked.value;
    say(
      io,
      `The receipt of ${ticket} is good: its ${entries.length} entries stand in the ledger of ${checkpoint.origin} as they were written, and none is left out.`,
    );
    say(
      io,
      entries.at(-1)?.kind === 'finished'
        ? 'The bundle is finished.'
        : 'The bundle was not finished when this was signed: what came later is not in it.',
    );
  } else say(io, `The receipt is not good. ${checked.error.message}`);
  return checked.ok ? 0 : 1;
}

function keyFrom(said: string, io: Io): Result<VerifierKey> {
  const key = readVerifierKey(said);
  if (key.ok || said.includes('+')) return key;
  const text = textFrom(said, io);
  return text.ok ? readVerifierKey(text.value) : text;
}

/** A checkpoint, or that of a receipt. */
export function checkpointFrom(
  file: string,
  io: Io,
): Result<{ readonly note: string; readonly checkpoint: Checkpoint }> {
  const text = textFrom(file, io);
  if (!text.ok) return text;
  const receipt = readReceiptText(text.value);
  const note = receipt.ok ? receipt.value.checkpoint : text.value;
  const unsigned = unsignedText(file, note);
  const checkpoint = unsigned.ok ? readCheckpoint(unsigned.value) : unsigned;
  if (!checkpoint.ok)
    return refuse(
      'checkpoint-unreadable',
      `${file} holds no checkpoint and no receipt: give the file that \`walkfoot station --checkpoint\` wrote.`,
    );
  return ok({ note, checkpoint: checkpoint.value });
}

function textFrom(file: string, io: Io): Result<string> {
  const bytes = givenFile(file, 'is far too long for a receipt or a key: check its name.', io);
  if (!bytes.ok) return bytes;
  try {
    return ok(new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes.value));
  } catch {
    return refuse('file-text', `${file} is no text, or its letters were damaged on the way: send it as a file.`);
  }
}

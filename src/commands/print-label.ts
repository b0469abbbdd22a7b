import type { HandId, TicketId } from '../base/brand.ts';
import { type Result, refuse } from '../base/result.ts';
import { currentRelease } from '../bundle/room.ts';
import { label } from '../reports/paper/label.ts';
import { attemptSigned } from './attempt-signed.ts';
import type { PlayableRoom } from './in-room.ts';
import type { Io } from './io.ts';
import { fileName, type NewFile, newFile } from './new-file.ts';

/** Where a ticket's label goes: as said, or a file named after it. */
export const labelFile = (said: string | true | undefined, ticket: string, copy: number, io: Io): Result<NewFile> =>
  newFile(typeof said === 'string' ? said : `${fileName(ticket)}${copy > 0 ? `.copy-${copy}` : ''}.label.html`, io);

/** Prints a ticket's label: it is counted first, signed where it is a copy, and then written. Answers which copy it is, 0 for none. */
export async function printLabel(
  ticket: TicketId,
  hand: HandId,
  file: NewFile,
  { ledger }: PlayableRoom,
  io: Io,
): Promise<Result<number>> {
  const done = await attemptSigned(ledger, ticket, { do: 'print', hand, what: 'label' }, io);
  if (!done.ok) return done;
  if (!done.value.playing) return refuse('ticket-unknown', `There is no ticket ${ticket} here: look at its label.`);
  const { bundle, procedure } = done.value.playing;
  const copy = bundle.printed - 1;
  const revision = bundle.text?.revision ?? currentRelease(done.value.room, bundle.procedure)?.revision ?? '';
  file.write(label(procedure, revision, { bundle, copy }));
  return { ok: true, value: copy };
}

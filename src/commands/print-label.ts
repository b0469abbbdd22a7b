import type { HandId, TicketId } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { currentRelease } from '../bundle/room.ts';
import { label } from '../reports/paper/label.ts';
import { attemptSigned } from './attempt-signed.ts';
import type { PlayableRoom } from './in-room.ts';
import type { Io } from './io.ts';
import { paperWords } from './paper-words.ts';

/** A ticket's label to be printed. It is counted first, and signed where it is a copy. */
export async function printLabel(
  ticket: TicketId,
  hand: HandId,
  { ledger, room }: PlayableRoom,
  io: Io,
): Promise<Result<string>> {
  const done = await attemptSigned(ledger, ticket, { do: 'print', hand, what: 'label' }, io);
  if (!done.ok) return done;
  if (!done.value.playing) return refuse('ticket-unknown', `There is no ticket ${ticket} here: look at its label.`);
  const { bundle, procedure } = done.value.playing;
  const revision = bundle.text?.revision ?? currentRelease(done.value.room, bundle.procedure)?.revision ?? '';
  return ok(label(await paperWords(room.settings.language), procedure, revision, { bundle, copy: bundle.printed - 1 }));
}

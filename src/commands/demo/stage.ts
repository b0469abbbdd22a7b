import type { Attempted, RoomLedger } from '../../app/room-ledger.ts';
import type { TicketId } from '../../base/brand.ts';
import type { Command } from '../../bundle/command.ts';
import type { Proof } from '../../bundle/pin.ts';
import type { StoryClock } from './story-clock.ts';

/** Where stories are played: a real ledger, whose clock is the story's. */
export interface Stage {
  readonly ledger: RoomLedger;
  readonly time: StoryClock;
}

/** One thing that happens; a refusal means that the story does not fit its procedure or the rules, and is a bug. */
export async function happens({ ledger }: Stage, ticket: TicketId | null, command: Command): Promise<Attempted> {
  const done = await ledger.attempt(ticket, command, proofFor(ledger, ticket, command));
  if (!done.ok)
    throw new Error(
      `the practice room’s story of ${ticket ?? 'the room'} fails at “${command.do}”: ${done.error.message}`,
    );
  return done.value;
}

/** Whoever signs in a story knows the PIN: it was told who has which. */
export function proofFor(ledger: RoomLedger, ticket: TicketId | null, command: Command): Proof | null {
  const hand = ledger.signature(ticket, command)?.hand;
  const pin = hand && ledger.room().pins.get(hand);
  return hand && pin ? { hand, pin: pin.seq } : null;
}

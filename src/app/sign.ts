import type { HandId, TicketId } from '../base/brand.ts';
import { parseStamp } from '../base/instant.ts';
import { type Result, refuse } from '../base/result.ts';
import type { Command } from '../bundle/command.ts';
import { secondsToWait } from '../bundle/pin.ts';
import { nameOf } from '../bundle/room.ts';
import { type Signature, waitWords } from '../bundle/signature.ts';
import { isPin, sealPin } from '../ledger/scrypt-pin.ts';
import type { Attempted, RoomLedger } from './room-ledger.ts';

/** A command that waits for a PIN, and who types it where. */
export interface ToSign {
  readonly ticket: TicketId | null;
  readonly command: Command;
  readonly signature: Signature;
  /** Who is at the station, or the room: a wrong PIN is recorded by them. */
  readonly by: HandId;
}

/** Whether a command was refused for nothing but a PIN, and whether the hand has one. */
export const pinAsked = (rule: string): 'known' | 'new' | undefined =>
  rule === 'pin-needed' ? 'known' : rule === 'pin-none' ? 'new' : undefined;

/**
 * Attempts a command with the PIN that was typed for it. A wrong one is in the ledger before anybody hears of it, and refused with
 * `pin-wrong`; while the hand has to wait, none is even looked at.
 */
export async function signWith(ledger: RoomLedger, to: ToSign, typed: string): Promise<Result<Attempted>> {
  const { ticket, command, signature, by } = to;
  const { hand, meaning } = signature;
  // Without a proof: whatever else stands in the way, a wait too, is said before the PIN is compared.
  const before = await ledger.attempt(ticket, command);
  const pin = ledger.room().pins.get(hand);
  if (before.ok || pinAsked(before.error.rule) !== 'known' || !pin) return before;
  if (await isPin(typed, pin)) return ledger.attempt(ticket, command, { hand, pin: pin.seq });
  const failed = await ledger.attempt(null, { do: 'fail pin', hand: by, who: hand, for: meaning });
  return failed.ok ? wrong(failed.value, hand) : failed;
}

/** Sets the first PIN of a hand, then attempts the command with it. `salt`: `SALT_BYTES` random bytes. */
export async function signFirst(
  ledger: RoomLedger,
  { ticket, command, signature: { hand } }: ToSign,
  chosen: string,
  salt: Uint8Array,
): Promise<Result<Attempted>> {
  const set = await ledger.attempt(null, { do: 'set pin', hand, who: hand, ...(await sealPin(chosen, salt)) });
  const pin = ledger.room().pins.get(hand);
  return set.ok && pin ? ledger.attempt(ticket, command, { hand, pin: pin.seq }) : set;
}

function wrong({ room }: Attempted, hand: HandId): Result<never> {
  const tries = room.wrongPins.get(hand);
  const at = tries && parseStamp(tries.lastAt);
  const wait = at ? secondsToWait(tries, at) : 0;
  const name = nameOf(room, hand);
  return wait > 0
    ? refuse('pin-wrong', 'That is not the PIN of {name}: wait {wait}, then try again.', {
        name,
        wait: waitWords(wait),
      })
    : refuse('pin-wrong', 'That is not the PIN of {name}: type it again.', { name });
}

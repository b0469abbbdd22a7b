import { randomBytes } from 'node:crypto';
import { newPin } from '../app/pin-words.ts';
import type { Attempted, RoomLedger } from '../app/room-ledger.ts';
import { pinAsked, signFirst, signWith } from '../app/sign.ts';
import type { TicketId } from '../base/brand.ts';
import { ok, type Refusal, type Result, refuse } from '../base/result.ts';
import type { Command } from '../bundle/command.ts';
import { THE_ROOM } from '../bundle/entries.ts';
import { nameOf } from '../bundle/room.ts';
import { SALT_BYTES } from '../ledger/scrypt-pin.ts';
import { type Asker, asker } from './asker.ts';
import { cannot, type Io } from './io.ts';

/** What stands in the way of a command that takes a signature, whoever signs it; asked before anything else is asked. */
export async function barredFrom(ledger: RoomLedger, command: Command): Promise<Refusal | undefined> {
  const unsigned = await ledger.attempt(null, command);
  if (unsigned.ok) throw new Error(`${command.do} takes no signature`);
  return pinAsked(unsigned.error.rule) === undefined ? unsigned.error : undefined;
}

/**
 * Attempts a command; where it takes a signature, whoever signs is asked for the PIN first. At a terminal a wrong one is asked for again
 * until it is right or given up: what was answered before it stands.
 */
export async function attemptSigned(
  ledger: RoomLedger,
  ticket: TicketId | null,
  command: Command,
  io: Io,
): Promise<Result<Attempted>> {
  const done = await ledger.attempt(ticket, command);
  const stage = done.ok ? undefined : pinAsked(done.error.rule);
  const signature = stage && ledger.signature(ticket, command);
  if (!signature) return done;
  const asking = asker(io, 'unseen');
  try {
    const to = { ticket, command, signature, by: THE_ROOM };
    const name = nameOf(ledger.room(), signature.hand);
    if (stage === 'known') {
      let prompt = `${name} signs: ${signature.meaning}. PIN of ${name}`;
      for (;;) {
        const typed = await asking.ask(prompt);
        if (typed === undefined) return noPin(name);
        prompt = `PIN of ${name}`;
        if (typed === '' && asking.from === 'terminal') continue;
        const signed = await signWith(ledger, to, typed);
        if (signed.ok || asking.from === 'pipe' || !AGAIN.has(signed.error.rule)) return signed;
        cannot(io, signed.error.message);
      }
    }
    // A first PIN in a script's input would be set without anybody having been asked.
    if (asking.from === 'pipe') return done;
    const chosen = await choosePin(asking, name);
    return chosen.ok ? await signFirst(ledger, to, chosen.value, randomBytes(SALT_BYTES)) : chosen;
  } finally {
    asking.close();
  }
}

/** Refusals after which the same hand may type it once more; how soon, the ledger holds. */
const AGAIN: ReadonlySet<string> = new Set(['pin-wrong', 'pin-wait']);

/** A new PIN: typed twice at a terminal, one line of any other input. */
export async function choosePin(asking: Asker, name: string): Promise<Result<string>> {
  const typed = await asking.ask(`New PIN of ${name}, 4 to 12 digits, or 6 letters and more`);
  if (typed === undefined) return noPin(name);
  const chosen = newPin(typed);
  if (!chosen.ok || asking.from === 'pipe') return chosen;
  const again = await asking.ask('The same PIN once more');
  return again?.normalize('NFC') === chosen.value
    ? ok(chosen.value)
    : refuse('pin-differs', 'The two were not the same: nothing was set.');
}

export const noPin = (name: string): ReturnType<typeof refuse> =>
  refuse('pin-missing', `The PIN of ${name} is typed at the terminal, or comes as one line of standard input.`);

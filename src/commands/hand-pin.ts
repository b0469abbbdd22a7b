import { randomBytes } from 'node:crypto';
import { findHand } from '../app/find-hand.ts';
import { signWith } from '../app/sign.ts';
import { THE_ROOM } from '../bundle/entries.ts';
import { nameOf } from '../bundle/room.ts';
import { SALT_BYTES, sealPin } from '../ledger/scrypt-pin.ts';
import { asker } from './asker.ts';
import { choosePin, noPin } from './attempt-signed.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say } from './io.ts';

interface PinOptions extends RoomOption {
  readonly hand?: string;
}

/**
 * Sets or changes a hand's PIN. The old one comes first, or with `--hand` that of the supervisor who lets a forgotten one be chosen
 * anew; then the new one.
 */
export function setPin(named: string, options: PinOptions, io: Io): Promise<ExitCode> {
  return onLedger(options, io, async ({ ledger }) => {
    const who = findHand(ledger.room(), named);
    if (!who.ok) return cannot(io, who.error.message);
    const by = options.hand === undefined ? who : findHand(ledger.room(), options.hand);
    if (!by.ok) return cannot(io, by.error.message);
    const { id, name } = who.value;
    const asking = asker(io, 'unseen');
    try {
      const isFirst = by.value.id === id && !ledger.room().pins.has(id);
      const signer = nameOf(ledger.room(), by.value.id);
      const proof = isFirst ? '' : await asking.ask(`PIN of ${signer}`);
      if (proof === undefined) return cannot(io, noPin(signer).error.message);
      const chosen = await choosePin(asking, name);
      if (!chosen.ok) return cannot(io, chosen.error.message);
      const sealed = await sealPin(chosen.value, randomBytes(SALT_BYTES));
      const command = { do: 'set pin', hand: by.value.id, who: id, ...sealed } as const;
      const signature = { hand: by.value.id, meaning: 'PIN set' } as const;
      const done = await signWith(ledger, { ticket: null, command, signature, by: THE_ROOM }, proof);
      if (!done.ok) return cannot(io, done.error.message);
      say(io, `${name} (${id}) has a new PIN.`);
      return 0;
    } finally {
      asking.close();
    }
  });
}

import { findHand } from '../app/find-hand.ts';
import { releasesOf } from '../bundle/room.ts';
import { named } from '../bundle/same-name.ts';
import { attemptSigned, barredFrom } from './attempt-signed.ts';
import { onLedger, type RoomOption } from './in-room.ts';
import { cannot, type ExitCode, type Io, say, sayJson } from './io.ts';
import { atWork, decideFates, type Fate, fatesOf } from './open-bundles.ts';
import { saidFates } from './release.ts';

interface WithdrawOptions extends RoomOption {
  readonly hand: string;
  readonly reason: string;
  readonly openBundles?: Fate;
  readonly json?: boolean;
}

/** Takes a revision out of use: no bundle is opened on it any more. What becomes of those at work on it is decided one by one. */
export function withdraw(typed: string, letter: string, options: WithdrawOptions, io: Io): Promise<ExitCode> {
  return onLedger<ExitCode>(options, io, async ({ ledger }) => {
    const hand = findHand(ledger.room(), options.hand);
    if (!hand.ok) return cannot(io, hand.error.message);
    const procedure = named(ledger.room().releases.keys(), typed);
    if (procedure === undefined) return cannot(io, `No revision of ${typed} is released: look at its name.`);
    const revision = letter.trim().toUpperCase();
    const isNewest = releasesOf(ledger.room(), procedure).at(-1)?.revision === revision;
    const reason = options.reason.trim();
    const command = { do: 'withdraw', hand: hand.value.id, procedure, revision, reason } as const;
    const barred = await barredFrom(ledger, command);
    if (barred) return cannot(io, barred.message);
    const touched = atWork(ledger, procedure).filter(({ text }) => text?.revision === revision);
    const fates = await fatesOf(touched, options.openBundles, ledger, io);
    if (!fates.ok) return cannot(io, fates.error.message);
    const done = await attemptSigned(ledger, null, command, io);
    if (!done.ok) return cannot(io, done.error.message);
    const held = `${procedure} revision ${revision} is withdrawn: ${reason}`;
    const said = options.openBundles;
    const deciding = { fates: fates.value, said, procedure, revision, hand: hand.value.id, reason: held };
    const decided = await decideFates(ledger, deciding, io);
    if (options.json) sayJson(io, { procedure, revision, bundles: decided });
    else
      say(
        io,
        `${procedure} revision ${revision} is withdrawn by ${hand.value.name}. ${isNewest ? `Until another is released, no bundle of ${procedure} can be opened.` : 'It was no longer the newest.'}`,
      );
    return saidFates(decided, options, io);
  });
}

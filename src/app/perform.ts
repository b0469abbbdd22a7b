import { assertNever } from '../base/assert-never.ts';
import type { Result } from '../base/result.ts';
import type { Command } from '../bundle/command.ts';
import { THE_ROOM } from '../bundle/entries.ts';
import { releaseOfText } from '../bundle/room.ts';
import { SALT_BYTES } from '../ledger/scrypt-pin.ts';
import type { Difference } from '../procedure/difference.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { App } from './app.ts';
import type { Effect, News } from './effect.ts';
import type { Attempted, RoomLedger } from './room-ledger.ts';
import { pinAsked, signFirst, signWith } from './sign.ts';

/**
 * Carries out the effects on a ledger. `ring` sounds the bell; `app` tells which bundle is being played; `random` answers so many random
 * bytes.
 */
export function performer(
  ledger: RoomLedger,
  ring: () => void,
  app: () => App,
  random: (bytes: number) => Uint8Array,
): (effect: Effect) => Promise<readonly News[]> {
  return async (effect) => {
    switch (effect.effect) {
      case 'bell':
        ring();
        return [];
      case 'look': {
        await ledger.catchUp();
        const { play } = app();
        const playing = play ? await ledger.playing(play.ticket) : null;
        return [
          { news: 'seen', room: ledger.room(), bundles: ledger.bundles(), playing: playing?.ok ? playing.value : null },
        ];
      }
      case 'attempt': {
        const { ticket, command } = effect;
        const done = await ledger.attempt(ticket, command);
        const stage = done.ok ? undefined : pinAsked(done.error.rule);
        const signature = stage && ledger.signature(ticket, command);
        return [
          stage && signature
            ? { news: 'pin asked', to: { ticket, command, signature, by: app().hand ?? THE_ROOM }, stage }
            : outcome(command, done),
        ];
      }
      case 'sign': {
        const { to, pin, as } = effect;
        const done = await (as === 'first'
          ? signFirst(ledger, to, pin, random(SALT_BYTES))
          : signWith(ledger, to, pin));
        return [outcome(to.command, done)];
      }
      case 'take': {
        const taken = await take(ledger, effect);
        return [taken.ok ? await asTaken(ledger, taken.value) : { news: 'refused', refusal: taken.error }];
      }
      default:
        return assertNever(effect);
    }
  };

  function outcome(command: Command, done: Result<Attempted>): News {
    return done.ok
      ? { news: 'done', command, ...done.value, bundles: ledger.bundles() }
      : { news: 'refused', refusal: done.error, command };
  }
}

async function take(
  ledger: RoomLedger,
  { ticket, hand }: Extract<Effect, { readonly effect: 'take' }>,
): Promise<Result<Attempted>> {
  const found = await ledger.playing(ticket);
  if (!found.ok) return found;
  return ledger.attempt(ticket, { do: found.value.bundle.text ? 'resume' : 'open', hand });
}

async function asTaken(ledger: RoomLedger, { room, playing }: Attempted): Promise<News> {
  if (!playing) throw new Error('a ticket was taken up without a bundle');
  const from = playing.bundle.changesToRead?.from;
  const release = from && releaseOfText(room, from);
  const before = release && (await ledger.procedure(release.understood));
  const changes = before?.ok ? await changesBetween(before.value, playing.procedure) : [];
  return { news: 'taken', room, playing, bundles: ledger.bundles(), changes };
}

/** Loaded when a hand meets a new revision: few sessions do. */
async function changesBetween(before: Procedure, after: Procedure): Promise<readonly Difference[]> {
  const { differences } = await import('../procedure/differences.ts');
  return differences(before, after);
}

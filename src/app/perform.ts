import { assertNever } from '../base/assert-never.ts';
import type { Result } from '../base/result.ts';
import { releaseOfText } from '../bundle/room.ts';
import type { Difference } from '../procedure/differences.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { App } from './app.ts';
import type { Effect, News } from './effect.ts';
import type { Attempted, RoomLedger } from './room-ledger.ts';

/** Carries out the effects on a ledger. `ring` sounds the bell; `app` tells which bundle is being played. */
export function performer(
  ledger: RoomLedger,
  ring: () => void,
  app: () => App,
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
        const done = await ledger.attempt(effect.ticket, effect.command);
        return [
          done.ok
            ? { news: 'done', command: effect.command, ...done.value, bundles: ledger.bundles() }
            : { news: 'refused', refusal: done.error, command: effect.command },
        ];
      }
      case 'take': {
        const taken = await take(ledger, effect);
        return [taken.ok ? await asTaken(ledger, taken.value) : { news: 'refused', refusal: taken.error }];
      }
      default:
        return assertNever(effect);
    }
  };
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

import { assertNever } from '../base/assert-never.ts';
import type { Instant } from '../base/instant.ts';
import { oneLine } from '../base/text.ts';
import { nameOf } from '../bundle/room.ts';
import { fresh, hasInHand, refusal, type Step } from './acts.ts';
import type { App } from './app.ts';
import { findHand } from './find-hand.ts';
import type { Move } from './move.ts';
import { unasked } from './pin-ask.ts';
import { speak, why } from './speak.ts';
import { rubbedOutOf, typedOn } from './typing.ts';
import { setWords } from './words.ts';

export interface Lock {
  /** The name that is being typed. */
  readonly field: string;
  /** A line of the dialogue that came when the lock was due: it is neither obeyed nor lost. */
  readonly kept: string;
}

/** Whether nobody has done anything here for so long that the station locks; a clock that was set leaves that in doubt, so it locks. */
export const isLockDue = (app: App, now: Instant): boolean =>
  app.lockAfter !== null &&
  app.hand !== null &&
  app.lock === null &&
  Math.abs(now.ms - app.touchedMs) >= app.lockAfter * 60_000;

/** The same program, locked. A PIN half typed is let be: nobody knows who comes back. */
export const locked = (app: App, kept = ''): App => ({
  ...(app.pin ? unasked(app) : app),
  lock: { field: '', kept: app.pin ? '' : kept },
  message: null,
});

/** The program after a move at a locked station; undefined where the move is none of the lock's. */
export function lockMoved(app: App, lock: Lock, move: Move): Step | undefined {
  const typed = (field: string): Step => [{ ...app, lock: { ...lock, field }, message: null }, []];
  switch (move.move) {
    case 'type':
      return typed(typedOn(lock.field, move.text, LONGEST_NAME));
    case 'erase':
      return typed(rubbedOutOf(lock.field));
    case 'escape':
      return typed('');
    case 'enter':
      return unlock(app, lock.field);
    case 'scan':
      return unlock(app, oneLine(move.text));
    case 'order':
      return move.order === 'quit' ? undefined : [app, []];
    case 'up':
    case 'down':
    case 'page up':
    case 'page down':
      return [app, []];
    default:
      return assertNever(move);
  }
}

const LONGEST_NAME = 80;

/** Somebody says who they are: the hand who was on, or another one. */
export function unlock(app: App, who: string): Step {
  const hand = findHand(app.room, who);
  if (!hand.ok)
    return [{ ...app, lock: app.lock && { ...app.lock, field: '' }, message: refusal(why(app, hand.error)) }, []];
  const after = hand.value.id === app.hand ? 'own lock' : 'lock of another';
  return [app, [{ effect: 'attempt', ticket: null, command: { do: 'sign on', hand: hand.value.id, after } }]];
}

/** The hand is known again. Everything goes on where it stood; or, for another hand, what the first had in hand is left properly. */
export function unlocked(app: App, hand: App['hand']): Step {
  const { play, hand: first, room } = app;
  const say = speak(app);
  if (hand === null || hand === first) {
    const name = hand === null ? say('Somebody') : nameOf(room, hand);
    const text = say('{name} is back: everything is as it was.', { name });
    return [{ ...app, lock: null, message: { tone: 'good', text } }, []];
  }
  const name = nameOf(room, hand);
  const bound = play && app.home === 'out' ? play.ticket : app.bound;
  const away = { ...fresh({ ...app, lock: null, play: null, hand, bound }), message: hello(name, app) };
  const pause =
    play && first !== null && hasInHand(play, app)
      ? [
          {
            effect: 'attempt',
            ticket: play.ticket,
            command: { do: 'pause', hand: first, reason: `the station had locked itself, and ${name} signed on` },
          } as const,
        ]
      : [];
  return [away, [...pause, ...(bound === null ? [] : [{ effect: 'take', ticket: bound, hand } as const])]];
}

function hello(name: string, app: App): App['message'] {
  const { play, room, hand } = app;
  const say = speak(app);
  const left =
    play && hand !== null
      ? ` ${say('{ticket} is left by {name}, and can be taken up again.', { ticket: play.ticket, name: nameOf(room, hand) })}`
      : '';
  return { tone: 'good', text: `${say('{name} is signed on.', { name })}${left}` };
}

/** Who is on, on which bundle, at which step. */
export function lockWords(app: App): string {
  const { room, hand, play } = app;
  const say = speak(app);
  const name = hand === null ? say('nobody') : nameOf(room, hand);
  if (!play) return say('{name} is on, with no bundle in hand.', { name });
  const { ticket } = play;
  const at = 'at' in play.next ? play.next.at : null;
  if (!at) return say('{name} is on, at {ticket}.', { name, ticket });
  const { number, title } = at.step;
  const set = setWords(say, at, play.bundle.sets);
  return say('{name} is on, at {ticket}, {set}, step {number} {title}.', { name, ticket, set, number, title });
}

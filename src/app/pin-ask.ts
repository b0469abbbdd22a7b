import { assertNever } from '../base/assert-never.ts';
import type { Command } from '../bundle/command.ts';
import { nameOf } from '../bundle/room.ts';
import type { Say } from '../words/say.ts';
import { openAgain, refusal, type Step } from './acts.ts';
import type { App } from './app.ts';
import type { Move } from './move.ts';
import { newPin } from './pin-words.ts';
import type { ToSign } from './sign.ts';
import { settledWays } from './signed-words.ts';
import { speak, why } from './speak.ts';
import { rubbedOutOf, typedOn } from './typing.ts';

/** A PIN that is asked for. It lies over everything else and leaves that as it was. */
export interface PinAsk {
  readonly to: ToSign;
  /** A hand without a PIN chooses one, and types it twice. */
  readonly stage: { readonly is: 'known' } | { readonly is: 'new' } | { readonly is: 'again'; readonly first: string };
  /** Typed so far. Nothing but dots of it is ever shown. */
  readonly typed: string;
}

/** Longer than any PIN may be, so that one that is too long is refused and not cut. */
const LONGEST = 80;

/** The program after a move while a PIN is asked for; undefined where the move is none of the PIN's. */
export function pinMoved(app: App, ask: PinAsk, move: Move): Step | undefined {
  switch (move.move) {
    case 'type':
      return [typedTo(app, ask, typedOn(ask.typed, move.text, LONGEST)), []];
    case 'erase':
      return [typedTo(app, ask, rubbedOutOf(ask.typed)), []];
    case 'escape':
      return [unasked(app), []];
    case 'enter':
      return entered(app, ask);
    case 'scan':
      return [
        { ...typedTo(app, ask, ''), message: refusal(speak(app)('A badge is no PIN: type it with the keys.')) },
        [],
      ];
    case 'order':
      return move.order === 'quit' || move.order === 'leave' ? undefined : [app, []];
    case 'up':
    case 'down':
    case 'page up':
    case 'page down':
      return [app, []];
    default:
      return assertNever(move);
  }
}

/** A whole line was typed. */
export const pinSaid = (app: App, ask: PinAsk, line: string): Step => entered(app, { ...ask, typed: line });

/** Without the question; what was to be signed is asked again. */
export const unasked = (app: App): App => ({ ...app, pin: null, layer: openAgain(app.layer), message: null });

/** What the signature says, and what is to be typed. */
export function pinQuestion(app: App, { to, stage }: PinAsk): { readonly says: string; readonly asks: string } {
  const { hand, meaning } = to.signature;
  const say = speak(app);
  const name = nameOf(app.room, hand);
  const says = say('{name} signs: {meaning}.', { name, meaning: `${say(meaning)}${about(say, to.command)}` });
  switch (stage.is) {
    case 'known':
      return { says, asks: say('PIN of {name}', { name }) };
    case 'new':
      return {
        says: `${says} ${say('{name} has no PIN yet and chooses one: 4 to 12 digits, or 6 letters and more.', { name })}`,
        asks: say('New PIN of {name}', { name }),
      };
    case 'again':
      return { says, asks: say('The same PIN once more') };
    default:
      return assertNever(stage);
  }
}

/** Which hold, which procedure: what the one who signs must not mistake. */
function about(say: Say, command: Command): string {
  if (command.do === 'settle') return ` ${command.hold}, ${say(settledWays[command.how.as])}`;
  return command.do === 'release' || command.do === 'withdraw' ? ` ${command.procedure}` : '';
}

const typedTo = (app: App, ask: PinAsk, typed: string): App => ({ ...app, pin: { ...ask, typed }, message: null });

function entered(app: App, ask: PinAsk): Step {
  const { stage, to, typed } = ask;
  const on = typedTo(app, ask, '');
  switch (stage.is) {
    case 'known':
      return typed === ''
        ? [{ ...app, message: refusal(speak(app)('Type the PIN, or let it be.')) }, []]
        : [on, [{ effect: 'sign', to, pin: typed, as: 'known' }]];
    case 'new': {
      const chosen = newPin(typed);
      return chosen.ok
        ? [{ ...on, pin: { to, stage: { is: 'again', first: chosen.value }, typed: '' } }, []]
        : [{ ...on, message: refusal(why(app, chosen.error)) }, []];
    }
    case 'again':
      return typed.normalize('NFC') === stage.first
        ? [on, [{ effect: 'sign', to, pin: stage.first, as: 'first' }]]
        : [
            {
              ...on,
              pin: { to, stage: { is: 'new' }, typed: '' },
              message: refusal(speak(app)('The two were not the same: choose it anew.')),
            },
            [],
          ];
    default:
      return assertNever(stage);
  }
}

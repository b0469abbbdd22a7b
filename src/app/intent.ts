import { assertNever } from '../base/assert-never.ts';
import type { HandId } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { notOnHold } from '../bundle/barred.ts';
import { allChecks, type Check } from '../bundle/bundle.ts';
import type { Command, SettleHow } from '../bundle/command.ts';
import { toDecimal } from '../measure/decimal.ts';
import { readQuantity } from '../measure/quantity.ts';
import type { Point } from '../procedure/procedure.ts';
import { type App, notUndone, type Play, undoable } from './app.ts';
import { changesOf } from './difference-words.ts';
import { findHand } from './find-hand.ts';
import { isFolded } from './fold.ts';
import { metresSaid } from './metres.ts';

/** What a person at the bundle wants, whether by keys or by lines of text. */
export type Intent =
  /** The answer to the one thing wanted now; empty is done, read, or go on. */
  | { readonly intent: 'answer'; readonly text: string }
  | { readonly intent: 'hold'; readonly reason: string }
  /** Without an entry: the newest check that counts. */
  | { readonly intent: 'strike'; readonly entry?: number; readonly reason: string }
  | { readonly intent: 'undo' }
  | { readonly intent: 'note'; readonly text: string }
  | { readonly intent: 'hand over'; readonly to: string }
  /** The metres on the bobbin in the machine; empty for a full one. */
  | { readonly intent: 'bobbin'; readonly metres: string }
  | { readonly intent: 'go back'; readonly reason: string }
  | { readonly intent: 'settle'; readonly by: string; readonly how: SettleHow; readonly reason: string }
  | { readonly intent: 'leave'; readonly reason?: string };

/** The command that carries out an intent, or the plain sentence why there is none. */
export function commandOf(app: App, play: Play, hand: HandId, intent: Intent): Result<Command> {
  const command = wanted(app, play, hand, intent);
  if (!command.ok) return command;
  const { do: what } = command.value;
  const sheet = play.sheet && (what === 'check' || what === 'read caution') ? { sheet: play.sheet } : {};
  return ok({ ...command.value, ...sheet, ...(app.paper ? { paper: app.paper } : {}) });
}

function wanted(app: App, play: Play, hand: HandId, intent: Intent): Result<Command> {
  switch (intent.intent) {
    case 'answer':
      return answer(app, play, hand, intent.text);
    case 'hold':
      return ok({ do: 'hold', hand, about: play.next.want === 'point' ? 'point' : 'bundle', reason: intent.reason });
    case 'strike': {
      const entry = intent.entry ?? newestCheck(play)?.seq;
      return entry === undefined
        ? refuse('nothing-to-strike', 'Nothing is recorded yet.')
        : ok({ do: 'strike', hand, entry, reason: intent.reason });
    }
    case 'undo': {
      const entry = undoable(app);
      return entry === null ? notUndone(app) : ok({ do: 'strike', hand, entry, reason: 'wrong key' });
    }
    case 'note':
      return ok({ do: 'note', hand, text: intent.text });
    case 'hand over': {
      const to = findHand(app.room, intent.to);
      return to.ok ? ok({ do: 'hand over', hand, to: to.value.id }) : to;
    }
    case 'bobbin':
      return fitBobbin(play, hand, intent.metres);
    case 'go back':
      return ok({ do: 'go back', hand, reason: intent.reason });
    case 'settle': {
      if (play.next.want !== 'settling') return notOnHold(play.ticket);
      const by = findHand(app.room, intent.by);
      return by.ok
        ? ok({ do: 'settle', hand: by.value.id, hold: play.next.hold.name, how: intent.how, reason: intent.reason })
        : by;
    }
    case 'leave':
      return ok({ do: 'pause', hand, ...(intent.reason ? { reason: intent.reason } : {}) });
    default:
      return assertNever(intent);
  }
}

/** What is typed is in metres, as on the room's tape; nothing stands for a full one, and no bobbin holds more than that. */
function fitBobbin({ next, thread }: Play, hand: HandId, typed: string): Result<Command> {
  if (!thread) return refuse('bobbin-off', 'Nobody reckons with bobbins here: go on without.');
  const { full } = thread;
  const metres = readQuantity(typed, 'm');
  const isFull = typed.trim() === '';
  if (!isFull && !metres.ok) return metres;
  const wound = !isFull && metres.ok ? metres.value.amount.mul(1000) : full;
  if (wound.gt(full))
    return refuse('bobbin-length', 'A full bobbin holds {full} m here: type what is on the one in the machine.', {
      full: metresSaid(full),
    });
  const takes = next.want === 'bobbin' ? { takes: toDecimal(next.takes) } : {};
  return ok({ do: 'fit bobbin', hand, wound: toDecimal(wound), ...takes });
}

/** The newest check that still counts. */
const newestCheck = (play: Play): Check | undefined =>
  allChecks(play.bundle).findLast((check) => !check.struck && !check.again);

/** An option named in the words of a sheet is the option at that place of the main text. */
function optionNumber(point: Point, text: string): string {
  if (point.kind !== 'choice' || text.trim() === '') return text;
  const said = text.trim().toLowerCase();
  const meant = point.options.flatMap((option, at) => (option.text.toLowerCase().startsWith(said) ? [at + 1] : []));
  const exact = point.options.findIndex((option) => option.text.toLowerCase() === said) + 1;
  return exact > 0 ? String(exact) : meant.length === 1 ? String(meant[0]) : text;
}

function answer(app: App, play: Play, hand: HandId, text: string): Result<Command> {
  const { next, ticket, changes, sheet, thread } = play;
  switch (next.want) {
    case 'opening':
      return ok({ do: 'open', hand });
    case 'resuming':
      return ok({ do: 'resume', hand });
    case 'settling':
      return refuse('on-hold', '{ticket} is on hold ({name}): a supervisor settles it first.', {
        ticket,
        name: next.hold.name,
      });
    case 'changes':
    case 'caution':
      if (text.trim() !== '') return refuse('only-read', 'This is only to be read: press enter when you have read it.');
      return next.want === 'changes'
        ? ok({ do: 'read changes', hand, change: next.number, of: changesOf({ changes }, next).of })
        : ok({ do: 'read caution', hand, set: next.at.set, step: next.at.step.id, caution: next.number });
    case 'bobbin':
      return fitBobbin(play, hand, text);
    case 'helping': {
      const by = findHand(app.room, text);
      return by.ok ? ok({ do: 'help', hand, set: next.at.set, step: next.at.step.id, by: by.value.id }) : by;
    }
    case 'finish':
      return /^\d{1,4}$/.test(text.trim())
        ? ok({ do: 'finish', hand, good: Number(text.trim()) })
        : refuse('count-missing', 'Count the good sets you tie up and type the number.');
    case 'nothing':
      return refuse('finished', '{ticket} is finished.', { ticket });
    case 'point': {
      const at = { set: next.at.set, step: next.at.step.id, point: next.point.id };
      if (next.point.kind === 'timed' && !app.paper && !next.clock && text.trim() === '')
        return ok({ do: 'start clock', hand, ...at });
      const took = thread?.takes.get(next.at.step.id) ?? undefined;
      const folded = isFolded(app) ? { folded: true as const } : {};
      const check = {
        do: 'check',
        hand,
        ...at,
        place: next.place,
        typed: sheet === undefined ? text : optionNumber(next.point, text),
        ...folded,
        ...(took === undefined ? {} : { took: toDecimal(took) }),
      } as const;
      if (next.point.kind !== 'hold point' || text.trim() === '') return ok(check);
      const witness = findHand(app.room, text);
      return witness.ok ? ok({ ...check, typed: '', witness: witness.value.id }) : witness;
    }
    default:
      return assertNever(next);
  }
}

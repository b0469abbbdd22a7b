import { assertNever } from '../base/assert-never.ts';
import { type Bundle, type Check, openHold } from '../bundle/bundle.ts';
import { nameOf } from '../bundle/room.ts';
import type { Place } from '../bundle/route.ts';
import { amountWords } from '../measure/amount-words.ts';
import type { Limit } from '../measure/limit.ts';
import type { Point } from '../procedure/procedure.ts';
import type { Say } from '../words/say.ts';
import type { App } from './app.ts';
import { speak } from './speak.ts';
import { since } from './when.ts';

/** What was recorded, for a screen: a tick is `done`. */
export const answerWords = (say: Say, check: Check): string =>
  check.value === 'done' && check.unit === null && check.limit === null ? say('done') : valueWords(check);

/** A recorded value as a person reads it: with its unit, and as it was typed where that was in another unit or with a comma. */
export function valueWords(check: Pick<Check, 'value' | 'unit' | 'typed'>): string {
  if (check.unit === null) return check.value;
  const plain = amountWords(check.value, check.unit);
  const typed = check.typed.trim();
  const wasOther = /[^\d.+\-−\s]/.test(typed.replace(check.unit, ''));
  return wasOther ? `${plain} (${typed})` : plain;
}

/** The shout over a value that is not acceptable. */
export const headline = (say: Say, { verdict }: Check): string =>
  say(verdict === 'unacceptable' ? 'NOT ACCEPTED' : 'OUT OF LIMIT');

/** `316 mm is 2.5 mm over 313.5`, `21 is 1 under 22`, `lighter (accepted: match)`. */
export function byHowMuch(say: Say, check: Check, point: Point | undefined): string {
  const value = valueWords(check);
  if (check.verdict === 'unacceptable' || check.by === undefined)
    return check.limit ? say('{value} (accepted: {limit})', { value, limit: check.limit }) : value;
  const isOver = check.verdict === 'above';
  const bound = point && 'limit' in point && point.limit ? (isOver ? point.limit.high : point.limit.low) : null;
  const values = {
    value: point?.kind === 'count' ? check.value : value,
    by: point?.kind === 'count' ? check.by : amountWords(check.by, check.unit ?? ''),
    bound: bound === null ? (check.limit ?? '') : point?.kind === 'timed' ? amountWords(bound, point.unit) : bound,
  };
  return say(isOver ? '{value} is {by} over {bound}' : '{value} is {by} under {bound}', values);
}

/** `set 1 of 2`, or `whole bundle`. */
export const setWords = (say: Say, { set }: Pick<Place, 'set'>, sets: number): string =>
  set === null ? say('whole bundle') : say('set {set} of {sets}', { set, sets });

/** `1 set`, `2 sets`. */
export const setCount = (say: Say, sets: number): string => (sets === 1 ? say('1 set') : say('{sets} sets', { sets }));

/** `set 2, step 4`, or `step 4` of what is for the whole bundle. */
export function placeOf(say: Say, { set }: Pick<Place, 'set'>, step: number | undefined): string {
  const where = say('step {number}', { number: step ?? '?' });
  return set === null ? where : `${say('set {set}', { set })}, ${where}`;
}

/** `open with Ines · 12 min`: how a bundle stands, and how long it has stood so. */
export function stateWords(app: App, bundle: Bundle): string {
  const hold = openHold(bundle);
  const say = speak(app);
  const long = (stamp: string): string => {
    const words = since(say, stamp, app.now);
    return words === '' ? '' : ` · ${words}`;
  };
  if (hold) return `${say('on hold {name}', { name: hold.name })}${long(hold.at)}`;
  const { work, hand, workSince } = bundle;
  const name = hand === null ? '' : nameOf(app.room, hand);
  switch (work) {
    case 'not opened':
      return say('not begun');
    case 'open':
      return say('open with {name}', { name });
    case 'paused':
      return `${say('left by {name}', { name })}${long(workSince)}`;
    case 'handed over':
      return `${say('for {name}', { name })}${long(workSince)}`;
    case 'finished':
      return say('finished');
    default:
      return assertNever(work);
  }
}

/** A limit for a screen, in the words of its reader, with its unit: `310.5 to 313.5 mm`; empty when it bounds nothing. */
export function limitSaid(say: Say, limit: Limit | null): string {
  const bounds = boundsSaid(say, limit);
  return bounds === '' ? '' : `${bounds} ${limit?.unit}`;
}

/** The same without the unit. */
export function boundsSaid(say: Say, limit: Limit | null): string {
  const { low, high } = limit ?? { low: null, high: null };
  if (low !== null && high !== null)
    return low === high ? say('exactly {low}', { low }) : say('{low} to {high}', { low, high });
  if (high !== null) return say('at most {high}', { high });
  return low === null ? '' : say('at least {low}', { low });
}

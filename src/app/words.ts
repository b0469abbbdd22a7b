import { assertNever } from '../base/assert-never.ts';
import { type Bundle, type Check, openHold } from '../bundle/bundle.ts';
import { nameOf } from '../bundle/room.ts';
import type { Place } from '../bundle/route.ts';
import { amountWords } from '../measure/amount-words.ts';
import type { Point } from '../procedure/procedure.ts';
import type { Say } from '../words/say.ts';
import type { App } from './app.ts';
import { since } from './when.ts';

/** A recorded value as a person reads it: with its unit, and as it was typed where that was in another unit or with a comma. */
export function valueWords(check: Pick<Check, 'value' | 'unit' | 'typed'>): string {
  if (check.unit === null) return check.value;
  const plain = amountWords(check.value, check.unit);
  const typed = check.typed.trim();
  const wasOther = /[^\d.+\-−\s]/.test(typed.replace(check.unit, ''));
  return wasOther ? `${plain} (${typed})` : plain;
}

/** The shout over a value that is not acceptable. */
export const headline = ({ verdict }: Check): string => (verdict === 'unacceptable' ? 'NOT ACCEPTED' : 'OUT OF LIMIT');

/** `316 mm is 2.5 mm over 313.5`, `21 is 1 under 22`, `lighter (accepted: match)`. */
export function byHowMuch(check: Check, point: Point | undefined): string {
  const value = valueWords(check);
  if (check.verdict === 'unacceptable' || check.by === undefined)
    return check.limit ? `${value} (accepted: ${check.limit})` : value;
  const isOver = check.verdict === 'above';
  const bound = point && 'limit' in point && point.limit ? (isOver ? point.limit.high : point.limit.low) : null;
  const beyond = `${isOver ? 'over' : 'under'} ${bound === null ? (check.limit ?? 'the limit') : point?.kind === 'timed' ? amountWords(bound, point.unit) : bound}`;
  return point?.kind === 'count'
    ? `${check.value} is ${check.by} ${beyond}`
    : `${value} is ${amountWords(check.by, check.unit ?? '')} ${beyond}`;
}

/** `set 1 of 2`, or `whole bundle`. */
export const setWords = (say: Say, { set }: Pick<Place, 'set'>, sets: number): string =>
  set === null ? say('whole bundle') : say('set {set} of {sets}', { set, sets });

/** `open with Ines · 12 min`: how a bundle stands, and how long it has stood so. */
export function stateWords(app: App, bundle: Bundle): string {
  const hold = openHold(bundle);
  const long = (stamp: string): string => {
    const words = since(stamp, app.now);
    return words === '' ? '' : ` · ${words}`;
  };
  if (hold) return `on hold ${hold.name}${long(hold.at)}`;
  const { work, hand, lastAt } = bundle;
  const name = hand === null ? '' : nameOf(app.room, hand);
  switch (work) {
    case 'not opened':
      return 'not begun';
    case 'open':
      return `open with ${name}`;
    case 'paused':
      return `left by ${name}${long(lastAt)}`;
    case 'handed over':
      return `for ${name}${long(lastAt)}`;
    case 'finished':
      return 'finished';
    default:
      return assertNever(work);
  }
}

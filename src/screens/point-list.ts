import { limitSaid, valueWords } from '../app/words.ts';
import { wallTime } from '../base/instant.ts';
import { type Bundle, type Check, isConceded, isGood, liveCheck, pointKey } from '../bundle/bundle.ts';
import { blanksOf } from '../bundle/next.ts';
import { nameOf, type Room } from '../bundle/room.ts';
import type { Place } from '../bundle/route.ts';
import { limitOf } from '../procedure/point-limit.ts';
import type { Point } from '../procedure/procedure.ts';
import type { Row } from '../widgets/row.ts';
import type { Say } from '../words/say.ts';
import { beside } from './beside.ts';
import { said } from './said.ts';

/** A point that has been answered, with what was recorded. */
export function donePoint(
  say: Say,
  point: Point,
  at: Place,
  bundle: Bundle,
  room: Room,
  width: number,
): readonly Row[] {
  const key = pointKey(at.set, at.step.id, point.id);
  const places = Array.from({ length: blanksOf(point) }, (_, blank) => blank + 1);
  const isLetThrough = places.some((place) => isConceded(bundle, key, place) && !isGood(liveCheck(bundle, key, place)));
  const values = recorded(point, settledChecks(point, at, bundle), room);
  const result = isLetThrough ? [values, say('let through')].filter((part) => part !== '').join(', ') : values;
  return beside(said(' ✓ ', 'good'), [said(pointWords(say, point))], [said(result)], width);
}

/** A point still to come, with its limit. */
export const laterPoint = (say: Say, point: Point, width: number): readonly Row[] =>
  beside(said('   '), [said(pointWords(say, point))], [said(limitWordsOf(say, point))], width);

/** The values that stand at a point, blank by blank: good, or let through. */
export function settledChecks(point: Point, at: Place, bundle: Bundle): readonly Check[] {
  const key = pointKey(at.set, at.step.id, point.id);
  return Array.from({ length: blanksOf(point) }, (_, blank) => blank + 1).flatMap((place) => {
    const check = liveCheck(bundle, key, place);
    return check && (isGood(check) || isConceded(bundle, key, place)) ? [check] : [];
  });
}

/** The words of a point with what they leave out: that it is a hold point, and the name formulas know it by. */
export function pointWords(say: Say, point: Point): string {
  if (point.kind === 'hold point') return say('Hold point: {text}', { text: point.text });
  return 'name' in point && point.name && !point.text.includes(point.name) ? `${point.text} ${point.name}` : point.text;
}

/** `310.5 to 313.5 mm`; empty without a limit. */
export const limitWordsOf = (say: Say, point: Point): string => limitSaid(say, limitOf(point));

function recorded(point: Point, checks: readonly Check[], room: Room): string {
  const last = checks.at(-1);
  if (!last) return '';
  if (point.kind === 'tick') return wallTime(last.at);
  if (point.kind === 'hold point') return `${last.witness ? `${nameOf(room, last.witness)} ` : ''}${wallTime(last.at)}`;
  const words = checks.map(valueWords);
  const unit = last.unit === null ? '' : ` ${last.unit}`;
  // The unit once, behind the last, unless a value was typed in another one.
  const isPlain = checks.every((check, index) => words[index] === `${check.value}${unit}`);
  return isPlain ? `${checks.map(({ value }) => value).join('  ')}${unit}` : words.join('  ');
}

import { valueWords } from '../app/words.ts';
import { wallTime } from '../base/instant.ts';
import { type Bundle, type Check, isGood, liveCheck, pointKey } from '../bundle/bundle.ts';
import { blanksOf } from '../bundle/next.ts';
import { nameOf, type Room } from '../bundle/room.ts';
import type { Place } from '../bundle/route.ts';
import { limitWords } from '../measure/limit-words.ts';
import type { Point } from '../procedure/procedure.ts';
import { type Row, span } from '../widgets/row.ts';
import { beside } from './beside.ts';

/** A point that has been answered, with what was recorded. */
export function donePoint(point: Point, at: Place, bundle: Bundle, room: Room, width: number): readonly Row[] {
  const checks = goodChecks(point, at, bundle);
  const said = checks.length > 0 ? recorded(point, checks, room) : 'let through';
  return beside(span(' ✓ ', 'good'), [span(point.text)], [span(said)], width);
}

/** A point still to come, with its limit. */
export const laterPoint = (point: Point, width: number): readonly Row[] =>
  beside(span('   '), [span(point.text)], [span(limitOf(point))], width);

/** The good values of a point, blank by blank. */
export function goodChecks(point: Point, at: Place, bundle: Bundle): readonly Check[] {
  const key = pointKey(at.set, at.step.id, point.id);
  return Array.from({ length: blanksOf(point) }, (_, blank) => liveCheck(bundle, key, blank + 1)).filter(isGood);
}

/** `310.5 to 313.5 mm`; empty without a limit. */
export const limitOf = (point: Point): string => ('limit' in point && point.limit ? limitWords(point.limit) : '');

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

import type { Play } from '../app/app.ts';
import { byHowMuch, headline } from '../app/words.ts';
import { assertNever } from '../base/assert-never.ts';
import type { Check } from '../bundle/bundle.ts';
import type { WantedPoint } from '../bundle/next.ts';
import type { Point } from '../procedure/procedure.ts';
import { fillRow, type Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import type { Plain, Say } from '../words/say.ts';
import { beside } from './beside.ts';
import { said } from './said.ts';

/** A value that is not acceptable: what is wrong, by how much, and every way on. Rows of exactly `width` columns where it shouts. */
export function outside(
  say: Say,
  { procedure }: Play,
  { at, point, clock }: WantedPoint,
  check: Check,
  width: number,
): readonly Row[] {
  const { ifOut } = at.step.facts;
  const back = ifOut?.backTo && procedure.steps.find(({ id }) => id === ifOut.backTo);
  const rows = (text: string): readonly Row[] => wrapRow([said(text)], width, 4);
  const key = (letter: string, text: string): readonly Row[] =>
    beside(said(`${letter}   `, 'strong'), [said(text)], [], width);
  return [
    ...shout(`${headline(say, check)}: ${byHowMuch(say, check, point)}`, width),
    ...(point.kind === 'computed'
      ? key('b', say('look back: strike a reading it came from, measure again'))
      : rows(say(clock ? 'Time it again: the clock runs.' : again(point)))),
    ...(ifOut && !back ? rows(say('If out: {text}.', { text: ifOut.text })) : []),
    ...(back ? key('r', say('back to step {number}, {title}', { number: back.number, title: back.title })) : []),
    ...key('h', say('hold it: a supervisor decides')),
  ];
}

/** Reversed from edge to edge, with a sign at both ends, so that no colour is needed to see it. */
const shout = (text: string, width: number): readonly Row[] =>
  wrapRow([said(text, 'bad')], Math.max(1, width - 6)).map((row) =>
    fillRow([said(' ✗ ', 'bad'), ...row], width, 'bad'),
  );

function again(point: Point): Plain {
  switch (point.kind) {
    case 'reading':
      return 'Measure again: type the value, then enter.';
    case 'count':
      return 'Count again: type the number, then enter.';
    case 'choice':
      return 'Look again: choose, then enter.';
    case 'timed':
      return 'Time it again: enter starts the clock anew.';
    case 'computed':
    case 'tick':
    case 'written':
    case 'hold point':
      return 'Do it again, then enter.';
    default:
      return assertNever(point);
  }
}

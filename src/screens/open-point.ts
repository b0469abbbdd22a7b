import type { App, Play } from '../app/app.ts';
import { speak, why } from '../app/speak.ts';
import { clockFace } from '../app/when.ts';
import { boundsSaid, valueWords } from '../app/words.ts';
import { assertNever } from '../base/assert-never.ts';
import { elapsedSeconds } from '../bundle/elapsed.ts';
import { judgeAnswer } from '../bundle/judge-answer.ts';
import { namedValues } from '../bundle/named-values.ts';
import { blanksOf, type WantedPoint } from '../bundle/next.ts';
import { toDecimal } from '../measure/decimal.ts';
import { readQuantity } from '../measure/quantity.ts';
import type { UnitId } from '../measure/unit.ts';
import { formulaWords } from '../procedure/formula-words.ts';
import type { Choice, Computed } from '../procedure/procedure.ts';
import { field } from '../widgets/field.ts';
import { indentRow, leftRight, type Row, rowColumns } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { beside } from './beside.ts';
import { outside } from './outside.ts';
import { limitWordsOf, pointWords, settledChecks } from './point-list.ts';
import { said } from './said.ts';

/** The one bright thing on the screen: the point that is wanted now, with its field, its limit, and what is wrong with it. */
export function openPoint(app: App, play: Play, wanted: WantedPoint, width: number): readonly Row[] {
  const { point, place } = wanted;
  const places = blanksOf(point);
  const which = places > 1 ? [said(speak(app)('{place} of {places}', { place, places }))] : [];
  const room = Math.max(1, width - INDENT);
  return [
    ...beside(said(' › ', 'bright'), [said(pointWords(speak(app), point), 'bright')], which, width),
    ...[
      ...answerRows(app, play, wanted, room),
      ...(wanted.outside ? outside(speak(app), play, wanted, wanted.outside, room) : []),
    ].map((row) => indentRow(row, INDENT)),
  ];
}

const INDENT = 3;

function answerRows(app: App, play: Play, wanted: WantedPoint, width: number): readonly Row[] {
  const { point } = wanted;
  switch (point.kind) {
    case 'tick':
      return [];
    case 'reading':
    case 'count':
      return valueRows(app, play, wanted, point.unit, width);
    case 'written':
      return [field({ text: app.field, width: wide(width) })];
    case 'hold point':
      return [
        ...wrapRow([said(speak(app)('A supervisor looks and signs: name or badge'))], width),
        field({ text: app.field, width: wide(width) }),
      ];
    case 'choice':
      return options(app, point, width);
    case 'timed':
      return clockRows(app, play, wanted, limitWordsOf(speak(app), point), width);
    case 'computed':
      return workedOut(app, play, wanted, point, width);
    default:
      return assertNever(point);
  }
}

const wide = (width: number): number => Math.max(1, Math.min(48, width));

/** Columns of a field for a number, such as `-1818.25` or `15 1/2 in`. */
const NUMBER_WIDTH = 10;

function valueRows(app: App, play: Play, wanted: WantedPoint, unit: UnitId, width: number): readonly Row[] {
  const { point, at } = wanted;
  const before = settledChecks(point, at, play.bundle).map(valueWordsOf(unit));
  const blank = field({ text: app.field, width: Math.max(1, Math.min(NUMBER_WIDTH, width - unit.length - 1)), unit });
  const limit = boundsSaid(speak(app), 'limit' in point ? point.limit : null);
  const right = [said(limit === '' ? '' : `${limit} ${unit}`)];
  const line: Row = [...before.map((value) => said(`${value}   `)), ...blank];
  const rows =
    rowColumns(line) + 2 + rowColumns(right) <= width
      ? [leftRight(line, right, width)]
      : [...(before.length === 0 ? [] : wrapRow([said(before.join(', '))], width)), leftRight(blank, right, width)];
  return [...rows, ...conversion(app.field, unit)];
}

const valueWordsOf =
  (unit: UnitId) =>
  (check: Parameters<typeof valueWords>[0]): string => {
    const words = valueWords(check);
    return words === `${check.value} ${unit}` ? check.value : words;
  };

/** A value in another unit is shown as both before it is recorded. */
function conversion(typed: string, unit: UnitId): readonly Row[] {
  const read = typed === '' ? undefined : readQuantity(typed, unit);
  return read?.ok && read.value.converted ? [[said(`= ${read.value.shown}`)]] : [];
}

/** All options look alike: a bold one would be ticked by habit. */
const options = ({ chosen }: App, { options: all }: Choice, width: number): readonly Row[] =>
  all.flatMap(({ text }, index) => {
    const isChosen = index === chosen;
    return beside(
      said(`${isChosen ? '›' : ' '} ${index + 1}  `, isChosen ? 'bright' : 'plain'),
      [said(text, isChosen ? 'bright' : 'plain')],
      [],
      width,
    );
  });

function clockRows(app: App, { bundle }: Play, { clock }: WantedPoint, limit: string, width: number): readonly Row[] {
  const say = speak(app);
  const seconds = clock ? elapsedSeconds(clock, bundle.lastAt, app.now) : 0;
  const state = say(clock ? 'the clock runs' : 'the clock stands');
  return [
    leftRight([said(clockFace(seconds), 'bright'), said(`  ${state}`)], [said(limit)], width),
    ...(clock?.setBack
      ? wrapRow([said(say('The clock of this station was set back: the true time is longer.'))], width)
      : []),
  ];
}

function workedOut(
  app: App,
  { procedure, bundle }: Play,
  wanted: WantedPoint,
  point: Computed,
  width: number,
): readonly Row[] {
  const situation = { room: app.room, bundle, procedure, now: app.now };
  const values = namedValues(situation, wanted.at.set, point.unit);
  const inNames = formulaWords(point.formula, (name) => name);
  const inValues = formulaWords(point.formula, (name) => {
    const value = values.get(name);
    return value ? toDecimal(value) : name;
  });
  const result = judgeAnswer(situation, wanted, '');
  if (!result.ok)
    return [...wrapRow([said(inNames)], width), ...wrapRow([said(`! ${why(app, result.error)}`, 'strong')], width, 2)];
  const sum: Row = [
    said(inNames === inValues ? `${inNames} = ` : `${inNames} = ${inValues} = `),
    said(`${result.value.value} ${point.unit}`, 'bright'),
  ];
  return beside(said(''), sum, [said(limitWordsOf(speak(app), point))], width);
}

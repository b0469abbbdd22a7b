import { type Limit, readLimit } from '../measure/limit.ts';
import { findUnit, type UnitId } from '../measure/unit.ts';
import { readOptions } from './choices.ts';
import { readMeasures } from './measures.ts';
import { nearest } from './nearest.ts';
import { cut, originOf, type Passage, trim } from './passage.ts';
import type { Choice } from './procedure.ts';
import type { Reading } from './reading.ts';
import { wayOut } from './way-out.ts';

/** What stands behind the last blank of a point. */
export type AfterBlank =
  | { readonly is: 'written' }
  | { readonly is: 'choice'; readonly options: Choice['options'] }
  | {
      readonly is: 'quantity';
      readonly unit: UnitId;
      readonly limit: Limit | null;
      /** The lengths of the drawing that the limit is of. */
      readonly measures: readonly string[];
    };

/** Reads `UNIT (LIMIT)`, `UNIT (LIMIT of MEASURE, MEASURE)`, `(option / option)` or nothing. `undefined` when it was noted. */
export function readAfterBlank(after: Passage, reading: Reading): AfterBlank | undefined {
  const text = after.text.replace(/\s*\.?\s*$/, '');
  if (text.trim() === '') return { is: 'written' };
  const say = (rule: string, index: number, message: string, found: string, mend: string): undefined => {
    reading.note({ rule, at: originOf(after, index), message, found, mend });
    return undefined;
  };
  const open = text.indexOf('(');
  const close = text.indexOf(')', open);
  const unitText = trim(cut(after, 0, open === -1 ? text.length : open));
  const unitAt = text.length - text.trimStart().length;
  if (open === -1 ? text.includes(')') : close === -1 || text.slice(open + 1, close).includes('(')) {
    const at = open === -1 ? text.indexOf(')') : open;
    return say(
      'bracket-open',
      at,
      'A bracket is missing here.',
      text.slice(at),
      'Write the limit between one ( and one ).',
    );
  }
  const unit = unitText.text === '' ? undefined : findUnit(unitText.text);
  if (unitText.text !== '' && unit === undefined) return noUnit(unitText.text, unitAt, say);
  if (open === -1) return unit && { is: 'quantity', unit, limit: null, measures: [] };
  const rest = text.slice(close + 1);
  const restAt = close + 1 + rest.length - rest.trimStart().length;
  if (/^\s*\(/.test(rest)) {
    return say(
      'limit-twice',
      restAt,
      'There is more than one bracket behind the blank.',
      rest.trim(),
      'Keep one limit, and make a second point for the other.',
    );
  }
  if (rest.trim() !== '') {
    return say(
      'text-after-limit',
      restAt,
      'There are words behind the limit.',
      rest.trim(),
      'Put the words before the blank.',
    );
  }
  const inside = trim(cut(after, open + 1, close));
  if (unit === undefined) {
    if (!looksLimited(inside.text)) return choice(inside, reading);
    const found = `(${inside.text})`;
    const mend = `Write the unit before it, such as ____ mm ${found} or ____ pcs ${found}.`;
    return say('unit-missing', open, 'A limit stands here, but the blank has no unit.', found, mend);
  }
  if (inside.text === '') {
    return say(
      'limit-unreadable',
      open,
      'The brackets for the limit are empty.',
      '()',
      'Write the limit between them, or leave them out.',
    );
  }
  const measures = readMeasures(inside, unit, reading);
  if (measures === undefined) return undefined;
  const limit = readLimit(measures.limit, unit);
  if (limit.ok) return { is: 'quantity', unit, limit: limit.value, measures: measures.names };
  const { message, mend } = wayOut(limit.error.message);
  reading.note({
    rule: limit.error.rule,
    at: originOf(inside, 0),
    message,
    found: inside.text,
    mend: mend ?? 'Write a limit such as 38 ±1.5, 27 +2/-0, max 4, min 10 or 36 to 40.',
  });
  return undefined;
}

type Say = (rule: string, index: number, message: string, found: string, mend: string) => undefined;

const UNITS = [
  'mm',
  'cm',
  'm',
  'in',
  'g',
  'kg',
  'N',
  'kPa',
  '°C',
  '°F',
  '%',
  'pcs',
  's',
  'min',
  'h',
  'st/100mm',
  'st/25mm',
  'spi',
];
const ALL_UNITS = UNITS.join(', ');

function noUnit(text: string, at: number, say: Say): undefined {
  const bracket = /[[{（［【].*$/s.exec(text);
  if (bracket) {
    const message = 'What stands behind a blank in brackets stands in round ones.';
    return say(
      'bracket-kind',
      at + bracket.index,
      message,
      bracket[0],
      'Write the unit, then ( and ), such as mm (312 ±1.5).',
    );
  }
  const [first = ''] = text.split(/\s/);
  if (first !== text && findUnit(first)) {
    const rest = text.slice(first.length).trim();
    const message = 'There are words behind the unit.';
    const mend = looksLimited(rest) ? `Write the limit in brackets: (${rest}).` : 'Put the words before the blank.';
    return say('text-after-unit', at + text.indexOf(rest, first.length), message, rest, mend);
  }
  const near = nearest(text, UNITS);
  const mend = near
    ? `Write ${near}, or another of ${ALL_UNITS}.`
    : `Write one of ${ALL_UNITS}, or put the words before the blank.`;
  return say('unit-unknown', at, 'What stands behind the blank is no unit the program knows.', text, mend);
}

/** Whether brackets without a unit before them hold a limit rather than options. `(110 / 120)` with spaces is a choice. */
function looksLimited(whole: string): boolean {
  const [, number = whole, unit = ''] = /^(.*\d)\s*([^\d\s].*)$/s.exec(whole) ?? [];
  const text = findUnit(unit) ? number : whole;
  const isNumeric = /^[\d\s.,+\-−–±≤≥<>/½¼¾]+$/.test(text) && /\d/.test(text);
  const isSpaced = /\s\/\s/.test(text) && !/[±+]/.test(text);
  const isWorded = /^(?:max|min)(?:imum)?\.?\s*\d|^[\d.,\s/]+\s+to\s+[\d.,\s/]+$/i.test(text);
  return isWorded || (isNumeric && !isSpaced);
}

function choice(inside: Passage, reading: Reading): AfterBlank | undefined {
  const options = readOptions(inside, reading);
  return options && { is: 'choice', options };
}

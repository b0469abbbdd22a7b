import type Fraction from 'fraction.js';
import { ok, type Result, refuse } from '../base/result.ts';
import { readNumber } from './number.ts';
import { quote } from './quote.ts';
import { findUnit, type UnitId, type UnitKind, unitKind, unitsOfKind } from './unit.ts';

/** A number, and the unit written behind it; `null` when it stands alone. */
interface Term {
  readonly number: Fraction;
  readonly written: string;
  readonly unit: UnitId | null;
}

/** Reads a number with or without a unit. `blank` is the unit asked for; it only shapes the way out in a refusal. */
export function readTerm(text: string, blank: UnitId): Result<Term> {
  if (text.length > LONGEST_TERM) {
    return refuse('number-unreadable', '{text} is too long for a number and a unit; write it again.', {
      text: quote(text),
    });
  }
  const [, written = '', rest = ''] = PARTS.exec(text) ?? [];
  if (text.trim() === '')
    return refuse('number-unreadable', 'There is no number here; write one, such as 12 {unit}.', { unit: blank });
  if (written.trim() === '' || EXPONENT.test(rest)) {
    return refuse('number-unreadable', '{text} cannot be read as a number; write it in figures, such as 12 {unit}.', {
      text: quote(text),
      unit: blank,
    });
  }
  const number = readNumber(written);
  if (!number.ok) return number;
  const tidy = written.trim().replace(/\s+/g, ' ');
  if (rest === '') return ok({ number: number.value, written: tidy, unit: null });
  const unit = findUnit(rest);
  if (unit) return ok({ number: number.value, written: tidy, unit });
  return refuse(
    'unit-unknown',
    '{text} is no unit known here; write the number alone for {unit}, or with one of these: {units}.',
    { text: quote(rest), unit: blank, units: unitList(unitKind(blank)) },
  );
}

/** The units of a kind, such as `mm, cm, m, in`. */
export const unitList = (kind: UnitKind): string => unitsOfKind(kind).join(', ');

const LONGEST_TERM = 80;
const EXPONENT = /^e *[+-]?\d/i;
/** The unit begins at the first letter or unit mark; vulgar fractions such as `½` are no letters. */
const PARTS = /^([^\p{L}°℃℉%"″”'′’]*)(.*)$/su;

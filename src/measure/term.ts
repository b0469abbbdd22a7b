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
    return refuse('number-unreadable', `${quote(text)} is too long for a number and a unit; write it again.`);
  }
  const [, written = '', rest = ''] = PARTS.exec(text) ?? [];
  if (text.trim() === '')
    return refuse('number-unreadable', `There is no number here; write one, such as 12 ${blank}.`);
  if (written.trim() === '' || EXPONENT.test(rest)) {
    return refuse(
      'number-unreadable',
      `${quote(text)} cannot be read as a number; write it in figures, such as 12 ${blank}.`,
    );
  }
  const number = readNumber(written);
  if (!number.ok) return number;
  const tidy = written.trim().replace(/\s+/g, ' ');
  if (rest === '') return ok({ number: number.value, written: tidy, unit: null });
  const unit = findUnit(rest);
  if (unit) return ok({ number: number.value, written: tidy, unit });
  const way = `write the number alone for ${blank}, or with ${unitList(unitKind(blank))}`;
  return refuse('unit-unknown', `${quote(rest)} is no unit known here; ${way}.`);
}

/** The units of a kind as words, such as `mm, cm, m or in`. */
export function unitList(kind: UnitKind): string {
  const units = unitsOfKind(kind);
  const last = units.at(-1) ?? '';
  return units.length > 1 ? `${units.slice(0, -1).join(', ')} or ${last}` : last;
}

const LONGEST_TERM = 80;
const EXPONENT = /^e *[+-]?\d/i;
/** The unit begins at the first letter or unit mark; vulgar fractions such as `½` are no letters. */
const PARTS = /^([^\p{L}°℃℉%"″”'′’]*)(.*)$/su;

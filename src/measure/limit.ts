import type Fraction from 'fraction.js';
import { ok, type Result, refuse } from '../base/result.ts';
import { endsAsDecimal, toDecimal } from './decimal.ts';
import { isNeverNegative, kindWords } from './kind.ts';
import { plainSigns } from './number.ts';
import { quote } from './quote.ts';
import { readTerm } from './term.ts';
import { type UnitId, unitKind } from './unit.ts';

/**
 * What a value must be, in the unit of its blank. Bounds are inclusive. `low`, `high` and `nominal` are decimal strings
 * in that unit, exact; `null` where the notation gives none (`max 4` has no low and no nominal).
 */
export interface Limit {
  readonly text: string;
  readonly unit: UnitId;
  readonly nominal: string | null;
  readonly low: string | null;
  readonly high: string | null;
}

/**
 * Reads a limit as on an engineering drawing (in the manner of ISO 129-1): `38 ±1.5`, `38 +/-1.5`, `27 +2/-0`, `27 +2 -0`,
 * `max 4` or `≤ 4`, `min 10` or `>= 10`, `36 to 40`, a bare number (exact). Numbers as `readNumber` takes them. The two
 * deviations of `+2/-0` may come in either order and on one side of the nominal; only 0 may lack its sign. Each number
 * may carry the blank's unit, no other: a limit is not converted, so that paper and screen say the same.
 *
 * Refused as `limit-unreadable`, `limit-ambiguous` (`10 min`), `limit-unit`, `limit-upside-down`, `limit-negative`,
 * `limit-not-whole` or `number-ambiguous`.
 */
export function readLimit(text: string, unit: UnitId): Result<Limit> {
  if (text.length > LONGEST_LIMIT) return refuse('limit-unreadable', `${quote(text)} is too long for a limit; ${MEND}`);
  const tidy = plainSigns(text).trim().replace(/\s+/g, ' ');
  const slip = SLIPS.find(({ looks }) => looks.test(tidy));
  if (slip) return refuse(slip.rule, `${quote(text)} ${slip.mend(unit)}`);
  const parsed = parse(tidy, unit);
  return parsed.ok ? checked(text.trim(), unit, parsed.value) : parsed;
}

interface Bounds {
  readonly nominal: Fraction | null;
  readonly low: Fraction | null;
  readonly high: Fraction | null;
}

const LONGEST_LIMIT = 80;
const MEND = 'write 38 ±1.5, 27 +2/-0, max 4, min 10, 36 to 40 or a bare number.';

const MOST = /^(?:max(?:imum)?\.? |≤|<=)(.+)$/i;
const LEAST = /^(?:min(?:imum)?\.? |≥|>=)(.+)$/i;
const RANGE = /^(.+?) to (.+)$/i;
const PLUS_OR_MINUS = /^(.+?)(?:±|\+ ?\/ ?-|\+-)(.+)$/;
/** A minus needs a space before it, as `1-1/2` is one number; a 0 without a sign needs the slash, as `2 0` is none. */
const DEVIATIONS =
  /^(.+?)(?: ?(\+[^+-]+?)| (-[^+-]+?)| (0)(?= ?\/))(?: ?\/ ?| )([+-][^+-]+|(?<=\/ ?)0(?![\d.,/])[^+-]*)$/;

interface Slip {
  readonly looks: RegExp;
  readonly rule: string;
  readonly mend: (unit: UnitId) => string;
}

/** Limits that are nearly right, or that two people would read in two ways. */
const SLIPS: readonly Slip[] = [
  {
    looks: /^[\d.,/ ¼-¾⅐-⅞-]+min\.?$/i,
    rule: 'limit-ambiguous',
    mend: (unit) =>
      unitKind(unit) === 'time'
        ? 'could be exactly so many minutes or at least so many; write min before the number, or the number alone.'
        : 'has min behind the number, where it could mean minutes; write min before the number.',
  },
  {
    looks: /\d ?max\.?$/i,
    rule: 'limit-unreadable',
    mend: () => 'has max behind the number; write max before the number.',
  },
  {
    looks: /^[<>](?!=)/,
    rule: 'limit-unreadable',
    mend: () => 'leaves open whether the bound itself is good; write max or min, which include it.',
  },
  {
    looks: /^[\d.,]+ ?(?:[-‒–−]|\.{2,}|…) ?[\d.,]+(?: ?[^\d/ ]+)?$/,
    rule: 'limit-unreadable',
    mend: () => 'has no clear sign between its numbers; write a range with the word to, such as 36 to 40.',
  },
];

function parse(text: string, unit: UnitId): Result<Bounds> {
  const most = MOST.exec(text);
  if (most) return one(most[1] ?? '', unit, (high) => ({ nominal: null, low: null, high }));
  const least = LEAST.exec(text);
  if (least) return one(least[1] ?? '', unit, (low) => ({ nominal: null, low, high: null }));
  const range = RANGE.exec(text);
  if (range) return two(range[1] ?? '', range[2] ?? '', unit, (low, high) => ({ nominal: null, low, high }));
  const around = PLUS_OR_MINUS.exec(text);
  if (around) {
    return two(around[1] ?? '', around[2] ?? '', unit, (nominal, tolerance) => ({
      nominal,
      low: nominal.sub(tolerance),
      high: nominal.add(tolerance),
    }));
  }
  const [, nominal, plus, minus, zero, second] = DEVIATIONS.exec(text) ?? [];
  if (nominal !== undefined && second !== undefined) {
    return deviations(nominal, plus ?? minus ?? zero ?? '', second, unit);
  }
  return one(text, unit, (exact) => ({ nominal: exact, low: exact, high: exact }));
}

function one(text: string, unit: UnitId, make: (number: Fraction) => Bounds): Result<Bounds> {
  const number = limitNumber(text, unit);
  return number.ok ? ok(make(number.value)) : number;
}

function two(a: string, b: string, unit: UnitId, make: (a: Fraction, b: Fraction) => Bounds): Result<Bounds> {
  const first = limitNumber(a, unit);
  if (!first.ok) return first;
  return one(b, unit, (second) => make(first.value, second));
}

function deviations(nominal: string, first: string, second: string, unit: UnitId): Result<Bounds> {
  const middle = limitNumber(nominal, unit);
  if (!middle.ok) return middle;
  return two(first, second, unit, (a, b) => {
    const [lower, upper] = a.lt(b) ? [a, b] : [b, a];
    return { nominal: middle.value, low: middle.value.add(lower), high: middle.value.add(upper) };
  });
}

function limitNumber(text: string, unit: UnitId): Result<Fraction> {
  const term = readTerm(text, unit);
  if (!term.ok) {
    if (term.error.rule === 'number-ambiguous') return term;
    return refuse('limit-unreadable', `${quote(text)} cannot be read in a limit; ${MEND}`);
  }
  if (term.value.unit !== null && term.value.unit !== unit) {
    const why = `This limit has the unit ${term.value.unit}, but its blank has ${unit}`;
    return refuse('limit-unit', `${why}; write the limit in ${unit}, or give the blank the unit ${term.value.unit}.`);
  }
  if (!endsAsDecimal(term.value.number)) {
    return refuse(
      'limit-unreadable',
      `${quote(text)} never ends as a decimal; write the limit as a decimal, such as 0.33.`,
    );
  }
  return ok(term.value.number);
}

function checked(text: string, unit: UnitId, { nominal, low, high }: Bounds): Result<Limit> {
  const kind = unitKind(unit);
  if (low !== null && high !== null && low.gt(high)) {
    const why = `${quote(text)} has its lower bound ${toDecimal(low)} over its upper bound ${toDecimal(high)}`;
    return refuse('limit-upside-down', `${why}; write the smaller first, or the tolerance without a minus.`);
  }
  const bounds = [nominal, low, high].filter((bound) => bound !== null);
  if (isNeverNegative(kind) && bounds.some((bound) => bound.lt(0n))) {
    return refuse(
      'limit-negative',
      `${quote(text)} reaches below 0, which ${kindWords(kind)} cannot be; write a bound of 0 or more.`,
    );
  }
  if (kind === 'count' && bounds.some((bound) => bound.d !== 1n)) {
    return refuse('limit-not-whole', `${quote(text)} is no limit for a count; write whole numbers, such as 20 to 22.`);
  }
  return ok({ text, unit, nominal: decimal(nominal), low: decimal(low), high: decimal(high) });
}

const decimal = (bound: Fraction | null): string | null => (bound === null ? null : toDecimal(bound));

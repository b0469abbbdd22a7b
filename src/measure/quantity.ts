import type Fraction from 'fraction.js';
import { ok, type Refusal, type Result, refuse } from '../base/result.ts';
import { endsAsDecimal, toDecimal } from './decimal.ts';
import { isNeverNegative } from './kind.ts';
import { quote } from './quote.ts';
import { readTerm, unitList } from './term.ts';
import { convert, type UnitId, type UnitKind, unitKind } from './unit.ts';

/** What was typed into a blank, and what it was understood to be. */
export interface Quantity {
  /** Exactly as it came in. */
  readonly typed: string;
  /** Exact, in the blank's unit. Judge this, not `value`: a converted amount may have no last decimal. */
  readonly amount: Fraction;
  /** The blank's unit. */
  readonly unit: UnitId;
  /** `amount` as a decimal; see `toDecimal` for where it is rounded. */
  readonly value: string;
  /** Whether it was typed in another unit of the same kind. */
  readonly converted: boolean;
  /** For screens: `312.5 mm`, or `393.7 mm (15 1/2 in)` when converted; `≈` before a value that had to be rounded. */
  readonly shown: string;
}

/**
 * Reads a value for a blank of this unit: a number as `readNumber` takes it, alone or with a unit behind it
 * (`15 1/2"`, `31.2 cm`, `312mm`). A unit of the same kind is converted. Refused as `number-unreadable`,
 * `number-ambiguous`, `unit-unknown`, `unit-of-another-kind`, `value-negative` or `count-not-whole`.
 */
export function readQuantity(typed: string, unit: UnitId): Result<Quantity> {
  const term = readTerm(typed, unit);
  if (!term.ok) return term;
  const from = term.value.unit ?? unit;
  const kind = unitKind(unit);
  if (unitKind(from) !== kind) {
    return refuse('unit-of-another-kind', '{from} measures something else than is asked for; write it in {units}.', {
      from,
      units: unitList(kind),
    });
  }
  const amount = convert(term.value.number, from, unit);
  const wrong = nonsense(typed, amount, kind);
  if (wrong) return { ok: false, error: wrong };
  const value = toDecimal(amount);
  const exact = endsAsDecimal(amount);
  const converted = from !== unit;
  const plain = `${exact ? '' : '≈ '}${value} ${unit}`;
  const shown = converted || !exact ? `${plain} (${term.value.written} ${from})` : plain;
  return ok({ typed, amount, unit, value, converted, shown });
}

function nonsense(typed: string, amount: Fraction, kind: UnitKind): Refusal | undefined {
  if (amount.lt(0n) && isNeverNegative(kind)) {
    return refuse('value-negative', '{typed} is below 0, which this cannot be; write it again without the minus.', {
      typed: quote(typed),
    }).error;
  }
  if (kind === 'count' && amount.d !== 1n) {
    return refuse('count-not-whole', '{typed} is no whole number; count again and write it like 22.', {
      typed: quote(typed),
    }).error;
  }
  return undefined;
}

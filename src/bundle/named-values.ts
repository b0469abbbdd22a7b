import type { Fraction } from 'fraction.js';
import { fromDecimal } from '../measure/decimal.ts';
import { readQuantity } from '../measure/quantity.ts';
import { convert, type UnitId, unitKind } from '../measure/unit.ts';
import { evaluate } from '../procedure/evaluate.ts';
import type { Point } from '../procedure/procedure.ts';
import { type Check, liveCheck, pointKey, type SetNumber } from './bundle.ts';
import { blanksOf } from './next.ts';
import type { BundleSituation } from './situation.ts';

/**
 * What the named points of this set, and of the whole bundle, read now: exact, and in `unit` where they are of its kind.
 * A name without a live reading is left out.
 */
export function namedValues(
  { procedure, bundle }: Pick<BundleSituation, 'procedure' | 'bundle'>,
  set: SetNumber,
  unit: UnitId,
): ReadonlyMap<string, Fraction> {
  const values = new Map<string, Fraction>();
  for (const step of procedure.steps) {
    for (const point of step.points) {
      if (!('name' in point) || !point.name) continue;
      const live = [set, null]
        .map((of) => liveCheck(bundle, pointKey(of, step.id, point.id), blanksOf(point)))
        .find((each) => each);
      const amount = live && exact(point, live, values);
      if (amount)
        values.set(point.name, unitKind(point.unit) === unitKind(unit) ? convert(amount, point.unit, unit) : amount);
    }
  }
  return values;
}

/** From what was typed rather than from the value as shown, which may be rounded. */
function exact(
  point: Point & { readonly unit: UnitId },
  check: Check,
  before: ReadonlyMap<string, Fraction>,
): Fraction | undefined {
  if (point.kind === 'computed') {
    const value = evaluate(point.formula, before);
    return value.ok ? value.value : undefined;
  }
  const typed = readQuantity(check.typed, point.unit);
  return typed.ok ? typed.value.amount : fromDecimal(check.value);
}

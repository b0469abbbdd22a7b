import type { Fraction } from 'fraction.js';
import { readQuantity } from '../measure/quantity.ts';
import { convert, type UnitId, unitKind } from '../measure/unit.ts';
import { evaluate } from '../procedure/evaluate.ts';
import type { Point } from '../procedure/procedure.ts';
import { type Check, liveCheck, pointKey, type SetNumber } from './bundle.ts';
import { blanksOf } from './next.ts';
import type { BundleSituation } from './situation.ts';

/**
 * What the named points of this set, and of the whole bundle, read now: exact, and in `unit` where they are of its kind.
 * Of several places the last counts. A name without a live reading is left out.
 */
export function namedValues(
  { procedure, bundle }: Pick<BundleSituation, 'procedure' | 'bundle'>,
  set: SetNumber,
  unit: UnitId,
): ReadonlyMap<string, Fraction> {
  const amounts = new Map<string, Amount>();
  for (const step of procedure.steps) {
    for (const point of step.points) {
      if (!('name' in point) || !point.name) continue;
      const live = [set, null]
        .map((of) => liveCheck(bundle, pointKey(of, step.id, point.id), blanksOf(point)))
        .find((each) => each);
      const amount = live && exact(point, live, amounts);
      if (amount) amounts.set(point.name, { amount, unit: point.unit });
    }
  }
  return inUnit(amounts, unit);
}

interface Amount {
  readonly amount: Fraction;
  readonly unit: UnitId;
}

/** From what was typed, or worked out again, rather than from the value as shown, which may be rounded. */
function exact(
  point: Point & { readonly unit: UnitId },
  check: Check,
  before: ReadonlyMap<string, Amount>,
): Fraction | undefined {
  if (point.kind === 'computed') {
    const value = evaluate(point.formula, inUnit(before, point.unit));
    return value.ok ? value.value : undefined;
  }
  const read = readQuantity(check.typed || check.value, point.unit);
  return read.ok ? read.value.amount : undefined;
}

const inUnit = (amounts: ReadonlyMap<string, Amount>, unit: UnitId): ReadonlyMap<string, Fraction> =>
  new Map(
    [...amounts].map(([name, { amount, unit: from }]) => [
      name,
      unitKind(from) === unitKind(unit) ? convert(amount, from, unit) : amount,
    ]),
  );

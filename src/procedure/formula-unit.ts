import { assertNever } from '../base/assert-never.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import type { UnitId } from '../measure/unit.ts';
import type { Formula } from './formula.ts';

/**
 * The unit a formula comes out in: `any` for a plain number and for anything multiplied or divided, where the unit written at
 * the blank holds. Refused as `formula-units` when a sum or a difference mixes units.
 */
export function formulaUnit(formula: Formula, units: ReadonlyMap<string, UnitId>): Result<UnitId | 'any'> {
  switch (formula.do) {
    case 'number':
      return ok('any');
    case 'name':
      return ok(units.get(formula.name) ?? 'any');
    case 'size':
    case 'minus':
      return formulaUnit(formula.of, units);
    case '*':
    case '/': {
      const left = formulaUnit(formula.left, units);
      if (!left.ok) return left;
      const right = formulaUnit(formula.right, units);
      return right.ok ? ok('any') : right;
    }
    case '+':
    case '-': {
      const left = formulaUnit(formula.left, units);
      if (!left.ok) return left;
      const right = formulaUnit(formula.right, units);
      if (!right.ok || left.value === 'any') return right;
      if (right.value === 'any' || right.value === left.value) return left;
      return refuse('formula-units', `This formula puts ${left.value} and ${right.value} together with ${formula.do}.`);
    }
    default:
      return assertNever(formula);
  }
}

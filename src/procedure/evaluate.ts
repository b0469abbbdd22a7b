import type Fraction from 'fraction.js';
import { assertNever } from '../base/assert-never.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { fromDecimal } from '../measure/decimal.ts';
import type { Formula } from './formula.ts';

/** Works a formula out exactly from the values of its names, each in its own unit. Refused as `name-unknown` or `division-by-zero`. */
export function evaluate(formula: Formula, named: ReadonlyMap<string, Fraction>): Result<Fraction> {
  switch (formula.do) {
    case 'number':
      return ok(fromDecimal(formula.value));
    case 'name': {
      const value = named.get(formula.name);
      if (value) return ok(value);
      return refuse('name-unknown', `${formula.name} has no value yet; measure it first.`);
    }
    case 'size':
      return map(evaluate(formula.of, named), (value) => ok(value.abs()));
    case 'minus':
      return map(evaluate(formula.of, named), (value) => ok(value.neg()));
    case '+':
    case '-':
    case '*':
    case '/':
      return map(evaluate(formula.left, named), (left) =>
        map(evaluate(formula.right, named), (right) => join(formula.do, left, right)),
      );
    default:
      return assertNever(formula);
  }
}

/** The names a formula needs, each once, in the order they stand. */
export function namesIn(formula: Formula): readonly string[] {
  switch (formula.do) {
    case 'number':
      return [];
    case 'name':
      return [formula.name];
    case 'size':
    case 'minus':
      return namesIn(formula.of);
    case '+':
    case '-':
    case '*':
    case '/':
      return [...new Set([...namesIn(formula.left), ...namesIn(formula.right)])];
    default:
      return assertNever(formula);
  }
}

function join(sign: '+' | '-' | '*' | '/', left: Fraction, right: Fraction): Result<Fraction> {
  switch (sign) {
    case '+':
      return ok(left.add(right));
    case '-':
      return ok(left.sub(right));
    case '*':
      return ok(left.mul(right));
    case '/':
      if (right.equals(0)) {
        return refuse('division-by-zero', 'The formula divides by zero with these readings; measure them again.');
      }
      return ok(left.div(right));
    default:
      return assertNever(sign);
  }
}

const map = <T, U>(result: Result<T>, next: (value: T) => Result<U>): Result<U> =>
  result.ok ? next(result.value) : result;

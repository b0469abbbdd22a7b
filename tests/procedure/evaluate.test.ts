import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { toDecimal } from '../../src/measure/decimal.ts';
import { evaluate, namesIn } from '../../src/procedure/evaluate.ts';
import { readFormula } from '../../src/procedure/read-formula.ts';

function work(text: string, named: Readonly<Record<string, string>> = {}): string {
  const formula = readFormula(text);
  if (!formula.ok) return formula.error.rule;
  const value = evaluate(formula.value, new Map(Object.entries(named).map(([name, of]) => [name, new Fraction(of)])));
  return value.ok ? toDecimal(value.value) : value.error.rule;
}

test.each([
  ['1 + 2 * 3', '7'],
  ['(1 + 2) * 3', '9'],
  ['7 - 2 - 1', '4'],
  ['8 / 4 / 2', '1'],
  ['|2 - 5|', '3'],
  ['|1 - |2 - 5||', '2'],
  ['-(2 − 5) × 2 ÷ 3', '2'],
  ['0.1 + 0.2', '0.3'],
  ['1,5 + 1', '2.5'],
  ['1 / (2 - 2)', 'division-by-zero'],
  ['1 +', 'formula-unreadable'],
  ['(1', 'formula-unreadable'],
  ['1 2', 'formula-unreadable'],
  ['1,500', 'formula-unreadable'],
  ['('.repeat(300), 'formula-unreadable'],
  ['', 'formula-unreadable'],
])('%s is %s', (text, value) => expect(work(text)).toBe(value));

test('names stand for exact values, and a name without one is refused', () => {
  expect(work('|d1 - d2|', { d1: '1818.1', d2: '1820.4' })).toBe('2.3');
  expect(work('d1 + 1')).toBe('name-unknown');
  const formula = readFormula('a * (b - a) / 2');
  expect(formula.ok && namesIn(formula.value)).toEqual(['a', 'b']);
});

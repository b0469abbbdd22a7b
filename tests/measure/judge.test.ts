import fc from 'fast-check';
import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { judge, type Verdict } from '../../src/measure/judge.ts';
import { readLimit } from '../../src/measure/limit.ts';
import { readQuantity } from '../../src/measure/quantity.ts';
import type { UnitId } from '../../src/measure/unit.ts';

const verdict = (typed: string, limit: string, unit: UnitId = 'mm'): Verdict => {
  const value = readQuantity(typed, unit);
  const bounds = readLimit(limit, unit);
  if (!value.ok || !bounds.ok) throw new Error(`${typed} or ${limit} was refused`);
  return judge(value.value.amount, bounds.value);
};

test.each<[string, string, Verdict, UnitId?]>([
  ['312', '312 ±1.5', { is: 'within' }],
  ['310.5', '312 ±1.5', { is: 'within' }],
  ['313.5', '312 ±1.5', { is: 'within' }],
  ['310.4', '312 ±1.5', { is: 'below', by: '0.1' }],
  ['313.500000001', '312 ±1.5', { is: 'above', by: '0.000000001' }],
  ['26.9', '27 +2/-0', { is: 'below', by: '0.1' }],
  ['0', 'max 4', { is: 'within' }],
  ['4.5', 'max 4', { is: 'above', by: '0.5' }],
  ['9', 'min 10', { is: 'below', by: '1' }, 'min'],
  ['21', '22', { is: 'below', by: '1' }, 'pcs'],
  ['23', '22', { is: 'above', by: '1' }, 'pcs'],
  ['12.6 in', '312 ±1.5', { is: 'above', by: '6.54' }],
  ['12 1/4 in', '311.15', { is: 'within' }],
])('%s against %s', (typed, limit, expected, unit) => {
  expect(verdict(typed, limit, unit)).toEqual(expected);
});

test('without a limit nothing is judged', () => {
  expect(judge(new Fraction('1'), null)).toEqual({ is: 'not judged' });
  expect(judge(new Fraction('1'), { text: '', unit: 'mm', nominal: null, low: null, high: null })).toEqual({
    is: 'not judged',
  });
});

test('a distance too small for six places is still not nothing', () => {
  const limit = { text: '1', unit: 'mm', nominal: '1', low: '1', high: '1' } as const;
  expect(judge(new Fraction(3_000_000_001n, 3_000_000_000n), limit)).toEqual({ is: 'above', by: '0.0000000003' });
  expect(judge(new Fraction(2_999_999_999n, 3_000_000_000n), limit)).toEqual({ is: 'below', by: '0.0000000003' });
});

test('verdicts agree with whole numbers compared in millionths', () => {
  const millionths = fc.bigInt(0n, 10n ** 9n);
  const text = (n: bigint): string => `${n / 1_000_000n}.${String(n % 1_000_000n).padStart(6, '0')}`;
  const near = fc.tuple(millionths, millionths, fc.oneof(millionths, fc.constantFrom(-1n, 0n, 1n)));
  fc.assert(
    fc.property(near, fc.boolean(), ([a, b, c], atLow) => {
      const [low, high] = a < b ? [a, b] : [b, a];
      const shifted = (atLow ? low : high) + c;
      const value = shifted < 0n ? 0n : shifted;
      const expected = value < low ? 'below' : value > high ? 'above' : 'within';
      const found = verdict(text(value), `${text(low)} to ${text(high)}`);
      expect(found.is).toBe(expected);
      const distance = value < low ? low - value : value - high;
      if (found.is === 'below' || found.is === 'above')
        expect(new Fraction(found.by).equals(new Fraction(distance, 1_000_000n))).toBe(true);
    }),
    { numRuns: 500 },
  );
});

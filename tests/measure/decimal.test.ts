import fc from 'fast-check';
import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { endsAsDecimal, fromDecimal, toDecimal } from '../../src/measure/decimal.ts';
import { readNumber } from '../../src/measure/number.ts';

test.each([
  ['1/2', '0.5'],
  ['-1/2', '-0.5'],
  ['0', '0'],
  ['100', '100'],
  ['5/4', '1.25'],
  ['1/64', '0.015625'],
  ['1/1024', '0.0009765625'],
])('%s is exactly %s', (fraction, decimal) => {
  expect(toDecimal(new Fraction(fraction))).toBe(decimal);
  expect(endsAsDecimal(new Fraction(fraction))).toBe(true);
});

test.each([
  ['1/3', '0.333333'],
  ['2/3', '0.666667'],
  ['-2/3', '-0.666667'],
  ['-1/3000000', '0'],
  ['9999999/3', '3333333'],
  ['8999999999/9000000000', '1'],
])('%s is rounded to %s', (fraction, decimal) => {
  expect(toDecimal(new Fraction(fraction))).toBe(decimal);
});

test('thirds do not end', () => {
  expect(endsAsDecimal(new Fraction('1/3'))).toBe(false);
  expect(endsAsDecimal(new Fraction('7/30'))).toBe(false);
});

test.each(['', 'NaN', '1e3', '1,5', '+1', '.5', '5.', ' 1'])('%j is not a decimal of ours', (text) => {
  expect(() => fromDecimal(text)).toThrow('not a decimal of ours');
});

test('a decimal written and read again is equal', () => {
  fc.assert(
    fc.property(fc.bigInt(-(10n ** 15n), 10n ** 15n), fc.nat(12), (digits, places) => {
      const amount = new Fraction(digits, 10n ** BigInt(places));
      const written = toDecimal(amount);
      expect(fromDecimal(written).equals(amount)).toBe(true);
      const typed = readNumber(written);
      expect(typed.ok && typed.value.equals(amount)).toBe(true);
    }),
  );
});

import fc from 'fast-check';
import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { convert, findUnit, type UnitId, unitKind, unitsOfKind } from '../../src/measure/unit.ts';

const UNITS: readonly UnitId[] = [
  ...(['mm', 'cm', 'm', 'in', 'g', 'kg', 'N', 'kPa', '°C', '°F', '%', 'pcs', 's', 'min', 'h'] as const),
  ...(['st/100mm', 'st/25mm', 'spi'] as const),
];

test.each(UNITS)('%s is spelled as it is shown', (unit) => {
  expect(findUnit(unit)).toBe(unit);
  expect(unitsOfKind(unitKind(unit))).toContain(unit);
});

test.each([
  ['inch', 'in'],
  ['Inches', 'in'],
  ['"', 'in'],
  ['″', 'in'],
  ['MM', 'mm'],
  ['KPA', 'kPa'],
  ['C', '°C'],
  ['° C', '°C'],
  ['℃', '°C'],
  ['degF', '°F'],
  ['pieces', 'pcs'],
  ['PCS', 'pcs'],
  ['minutes', 'min'],
  [' st/100 mm ', 'st/100mm'],
  ['per 100 mm', 'st/100mm'],
  ['stitches per 25 mm', 'st/25mm'],
  ['st/in', 'spi'],
  ['SPI', 'spi'],
])('%s is read as %s', (text, unit) => {
  expect(findUnit(text)).toBe(unit);
});

test.each([
  '',
  'M',
  'Mm',
  'mM',
  'n',
  'K',
  "'",
  'ft',
  'per 10 mm',
  'mmm',
  'mm2',
  '/mm',
  'constructor',
  ' '.repeat(100_000),
])('%j is no unit', (text) => {
  expect(findUnit(text)).toBeUndefined();
});

test('units of one kind and no others convert', () => {
  expect(unitsOfKind('length')).toEqual(['mm', 'cm', 'm', 'in']);
  expect(() => convert(new Fraction('1'), 'mm', 'kg')).toThrow('mm does not convert into kg');
});

test('converting there and back gives the same amount', () => {
  const pair = fc
    .constantFrom(...UNITS)
    .chain((from) => fc.tuple(fc.constant(from), fc.constantFrom(...unitsOfKind(unitKind(from)))));
  fc.assert(
    fc.property(fc.bigInt(-(10n ** 12n), 10n ** 12n), fc.bigInt(1n, 10n ** 9n), pair, (top, bottom, [from, to]) => {
      const amount = new Fraction(top, bottom);
      expect(convert(convert(amount, from, to), to, from).equals(amount)).toBe(true);
    }),
  );
});

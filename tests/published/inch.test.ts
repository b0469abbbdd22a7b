import { expect, test } from 'vitest';
import { toDecimalAt } from '../../src/measure/decimal.ts';
import { type Quantity, readQuantity } from '../../src/measure/quantity.ts';
import type { UnitId } from '../../src/measure/unit.ts';
import lumber from './data/dressed-lumber.json' with { type: 'json' };
import inch from './data/inch.json' with { type: 'json' };
import conversions from './data/si-conversions.json' with { type: 'json' };

const typed = (text: string, unit: UnitId): Quantity => {
  const result = readQuantity(text, unit);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};

test(`an inch, and a metre in inches: ${inch.source}`, () => {
  expect(typed('1 in', 'mm').value).toBe(inch.inchInMm);
  const places = inch.metreInInches.split('.')[1]?.length ?? 0;
  expect(toDecimalAt(typed('1 m', 'in').amount, places)).toBe(inch.metreInInches);
});

test.each(inch.sixtyFourths)('$inch in is exactly $mm mm', ({ inch: fraction, mm }) => {
  expect(typed(`${fraction} in`, 'mm').value).toBe(mm);
});

test.each(conversions.rows)('$typed is $exact $unit: $source', ({ typed: text, unit, exact }) => {
  expect(typed(text, unit as UnitId).value).toBe(exact);
});

// The table rounds an exact half to the even millimetre, which this program never does; both stay within half a millimetre.
test.each(lumber.rows)(`$inch in is printed as $mm mm: ${lumber.source}`, ({ inch: dressed, mm }) => {
  expect(typed(`${dressed} in`, 'mm').amount.sub(mm).abs().lte('1/2')).toBe(true);
});

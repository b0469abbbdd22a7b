import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fromDecimal } from '../../src/measure/decimal.ts';
import { judge } from '../../src/measure/judge.ts';
import { readLimit } from '../../src/measure/limit.ts';
import { readQuantity } from '../../src/measure/quantity.ts';
import type { UnitId } from '../../src/measure/unit.ts';

const numRuns = 100_000;
const units = ['mm', 'in', 'pcs', '°C', '%', 'min', 'kPa', 'st/100mm', 'spi'] as const satisfies readonly UnitId[];
const number = fc.oneof(
  fc.nat(9_999).map(String),
  fc.tuple(fc.nat(999), fc.constantFrom('.', ','), fc.nat(99_999)).map((parts) => parts.join('')),
  fc
    .tuple(fc.nat(99), fc.constantFrom(' ', '-', ''), fc.constantFrom('1/2', '3/16', '½', '⅞', '5⁄8'))
    .map((parts) => parts.join('')),
  fc.constantFrom(
    '0',
    '-0',
    '1/3',
    '1,500',
    '007',
    '9'.repeat(40),
    `0.${'0'.repeat(36)}1`,
    '1/0',
    '1e3',
    '.5',
    '5.',
    '٣',
    'NaN',
  ),
);
const sign = fc.constantFrom('', '', '+', '-', '−', '–', '±', ' ');
const unit = fc.constantFrom(
  ...['', '', ' '],
  ...units,
  ...[' in', '"', '″', 'cm', 'MM', 'ft', '℃', '\u202e', '\ud800', '\x1b[A'],
);
const term = fc.tuple(sign, number, unit).map((parts) => parts.join(''));
const noise = fc.string({ unit: 'binary', maxLength: 12 });
const typed = fc.oneof(
  { weight: 6, arbitrary: term },
  fc.tuple(term, noise).map((parts) => parts.join('')),
  fc
    .array(fc.constantFrom(...'0123456789.,/+-−½ "″°CF%e', 'mm', 'in'), { maxLength: 20 })
    .map((parts) => parts.join('')),
  fc.string({ unit: 'binary', maxLength: 90 }),
);
const joint = fc.constantFrom(
  ...[' ±', '±', ' +/- ', ' +', '/-', ' -', ' to ', '-', 'max ', 'min ', '≤', '>=', ' / ', ' '],
);
const limitText = fc.oneof(
  { weight: 3, arbitrary: fc.tuple(term, joint, term).map((parts) => parts.join('')) },
  { weight: 3, arbitrary: fc.tuple(term, joint, term, joint, term).map((parts) => parts.join('')) },
  { weight: 2, arbitrary: fc.tuple(joint, term).map((parts) => parts.join('')) },
  fc.array(fc.oneof(joint, number, unit), { maxLength: 8 }).map((parts) => parts.join('')),
  fc.string({ unit: 'binary', maxLength: 90 }),
);

test('of 100,000 things typed, what is a value is the same value when its decimal is read again', () => {
  fc.assert(
    fc.property(typed, fc.constantFrom(...units), (text, blank) => {
      const read = readQuantity(text, blank);
      if (!read.ok) {
        expect(read.error.message).toMatch(/^\S.*\.$/);
        return;
      }
      const { amount, value, shown } = read.value;
      expect(shown).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}]/u);
      expect(read.value).toMatchObject({ typed: text, unit: blank });
      const again = readQuantity(value, blank);
      if (value.length > 40) return;
      expect(again).toMatchObject({ ok: true, value: { value, converted: false } });
      // Where the decimal had to be rounded it is six places long.
      if (again.ok && !again.value.amount.equals(amount))
        expect(Number(again.value.amount.sub(amount).abs())).toBeLessThanOrEqual(5e-7);
    }),
    { numRuns },
  );
});

test('of 100,000 limits, what is read is the same when it is read again, bounds in order and its own nominal within', () => {
  fc.assert(
    fc.property(limitText, fc.constantFrom(...units), (text, blank) => {
      const read = readLimit(text, blank);
      if (!read.ok) {
        expect(read.error.message).toMatch(/^\S.*\.$/);
        return;
      }
      const { nominal, low, high } = read.value;
      expect(readLimit(read.value.text, blank)).toEqual(read);
      for (const bound of [low, high])
        if (bound !== null) expect(judge(fromDecimal(bound), read.value)).toEqual({ is: 'within' });
      if (nominal === null) expect(low ?? high).not.toBeNull();
      else expect(fromDecimal(low ?? nominal).lte(fromDecimal(high ?? nominal))).toBe(true);
    }),
    { numRuns },
  );
});

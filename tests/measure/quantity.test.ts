import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readQuantity } from '../../src/measure/quantity.ts';
import type { UnitId } from '../../src/measure/unit.ts';

const read = (typed: string, unit: UnitId = 'mm'): string => {
  const result = readQuantity(typed, unit);
  return result.ok ? result.value.shown : result.error.rule;
};

test('a value in another unit is converted and remembers what was typed', () => {
  const result = readQuantity(' 15 1/2 in', 'mm');
  expect(result).toMatchObject({
    ok: true,
    value: { typed: ' 15 1/2 in', unit: 'mm', value: '393.7', converted: true, shown: '393.7 mm (15 1/2 in)' },
  });
  expect(result.ok && result.value.amount.equals('393.7')).toBe(true);
});

test('a value in the unit asked for is not marked as converted', () => {
  expect(readQuantity('312.50', 'mm')).toMatchObject({
    value: { value: '312.5', converted: false, shown: '312.5 mm' },
  });
});

test.each<[string, string, UnitId?]>([
  ['1,5', '1.5 mm'],
  ['312mm', '312 mm'],
  ['31.2 cm', '312 mm (31.2 cm)'],
  ['15 1/2"', '393.7 mm (15 1/2 in)'],
  ['½″', '12.7 mm (½ in)'],
  ['1.500', '1.5 mm'],
  ['-3', '-3 °C', '°C'],
  ['98.6 F', '37 °C (98.6 °F)', '°C'],
  ['-2.5', '-2.5 %', '%'],
  ['22 pcs', '22 pcs', 'pcs'],
  ['22.0', '22 pcs', 'pcs'],
  ['0', '0 pcs', 'pcs'],
  ['25 per 100 mm', '6.35 spi (25 st/100mm)', 'spi'],
  ['10 mm', '≈ 0.393701 in (10 mm)', 'in'],
  ['1/3', '≈ 0.333333 in (1/3 in)', 'in'],
])('%s is shown as %s', (typed, shown, unit) => {
  expect(read(typed, unit)).toBe(shown);
});

test.each<[string, string, UnitId?]>([
  ['12 kg', 'unit-of-another-kind'],
  ['12 mm', 'unit-of-another-kind', 'pcs'],
  ['3 %', 'unit-of-another-kind', 'pcs'],
  ['12 furlongs', 'unit-unknown'],
  ["5'", 'unit-unknown'],
  ['7 mM', 'unit-unknown'],
  ['-1', 'value-negative'],
  ['−1 in', 'value-negative'],
  ['-1', 'value-negative', 'pcs'],
  ['-1', 'value-negative', 's'],
  ['-1', 'value-negative', 'g'],
  ['-1', 'value-negative', 'spi'],
  ['2.5', 'count-not-whole', 'pcs'],
  ['1,500', 'number-ambiguous'],
  ['1,500 mm', 'number-ambiguous'],
  ['', 'number-unreadable'],
  ['abc', 'number-unreadable'],
  ['mm', 'number-unreadable'],
  ['1e999', 'number-unreadable'],
  ['NaN', 'number-unreadable'],
  ['Infinity', 'number-unreadable'],
  ['1/0', 'number-unreadable'],
  ['12 13', 'number-unreadable'],
  ['9'.repeat(10_000), 'number-unreadable'],
])('%.20j is refused as %s', (typed, rule, unit) => {
  expect(read(typed, unit)).toBe(rule);
});

test.each<[string, string, UnitId]>([
  ['12 kg', 'kg measures something else than is asked for; write it in mm, cm, m, in.', 'mm'],
  ['12 mm', 'mm measures something else than is asked for; write it in pcs.', 'pcs'],
  ['3 ft', '"ft" is no unit known here; write the number alone for mm, or with one of these: mm, cm, m, in.', 'mm'],
  ['-1', '"-1" is below 0, which this cannot be; write it again without the minus.', 'mm'],
  ['2.5', '"2.5" is no whole number; count again and write it like 22.', 'pcs'],
  ['', 'There is no number here; write one, such as 12 mm.', 'mm'],
])('the refusal of %j says what to do', (typed, message, unit) => {
  expect(readQuantity(typed, unit)).toMatchObject({ ok: false, error: { message } });
});

test('no text makes the reader throw, and long text is refused at once', () => {
  const piece = fc.constantFrom(...'0123456789.,/+-−½ "″°CF%', 'mm', 'in', 'st/100mm', 'e');
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 90 }),
    fc.array(piece, { maxLength: 60 }).map((parts) => parts.join('')),
  );
  fc.assert(
    fc.property(text, fc.constantFrom<UnitId>('mm', 'pcs', '°C', 'spi'), (garbage, unit) => {
      expect(typeof readQuantity(garbage, unit).ok).toBe('boolean');
    }),
    { numRuns: 2_000 },
  );
  for (const part of ['9', ' ', 'm', '½', '1/', '\u{1f9f5}', '\ud800'])
    expect(read(part.repeat(100_000))).toBe('number-unreadable');
});

test('what is quoted in a refusal cannot break its line', () => {
  const read = readQuantity('0 1/2\u2028 \u0000 x', 'mm');
  expect(read.ok ? '' : read.error.message).toMatch(/^"0 1\/2\uFFFD \uFFFD" cannot be read/);
});

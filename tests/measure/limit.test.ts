import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readLimit } from '../../src/measure/limit.ts';
import { limitBounds, limitWords } from '../../src/measure/limit-words.ts';
import type { UnitId } from '../../src/measure/unit.ts';

const read = (text: string, unit: UnitId = 'mm'): string => {
  const result = readLimit(text, unit);
  if (!result.ok) return result.error.rule;
  const { nominal, low, high } = result.value;
  return [low, nominal, high].map((bound) => bound ?? '*').join(' ');
};

test('a limit keeps its text, its unit and its bounds as decimals', () => {
  expect(readLimit(' 38 ±1.5 ', 'mm')).toEqual({
    ok: true,
    value: { text: '38 ±1.5', unit: 'mm', nominal: '38', low: '36.5', high: '39.5' },
  });
});

test.each<[string, string, UnitId?]>([
  ['312 ±1.5', '310.5 312 313.5'],
  ['312 ± 1,5', '310.5 312 313.5'],
  ['312±1.5 mm', '310.5 312 313.5'],
  ['312 mm ±1.5 mm', '310.5 312 313.5'],
  ['27 +/-1', '26 27 28'],
  ['27 + / −1', '26 27 28'],
  ['27 +2/-0', '27 27 29'],
  ['27 +2/−0', '27 27 29'],
  ['27+2/-0', '27 27 29'],
  ['27 +2 -0', '27 27 29'],
  ['27 -0/+2', '27 27 29'],
  ['27 +2/0 mm', '27 27 29'],
  ['27 0/-2', '25 27 27'],
  ['1818 +4/-2', '1816 1818 1822'],
  ['27 +2/+1', '28 27 29'],
  ['max 4', '* * 4'],
  ['Max. 4', '* * 4'],
  ['≤ 4', '* * 4'],
  ['<=4', '* * 4'],
  ['min 10', '10 * *', 'min'],
  ['min 10 min', '10 * *', 'min'],
  ['>= 10', '10 * *', 'h'],
  ['36 to 40', '36 * 40'],
  ['36 mm to 40 mm', '36 * 40'],
  ['22', '22 22 22', 'pcs'],
  ['20 to 22 pcs', '20 * 22', 'pcs'],
  ['1 1/2 ±1/16', '1.4375 1.5 1.5625', 'in'],
  ['1-1/2 +1/16/-1/32', '1.46875 1.5 1.5625', 'in'],
  ['1½ ±⅛', '1.375 1.5 1.625', 'in'],
  ['1 1/2" ±1/16"', '1.4375 1.5 1.5625', 'in'],
  ['-5 ±2', '-7 -5 -3', '°C'],
  ['-20 to -10', '-20 * -10', 'kPa'],
  ['25 +2/-1 st/100 mm', '24 25 27', 'st/100mm'],
  ['0.3 ±0.1', '0.2 0.3 0.4'],
])('%s means %s', (text, bounds, unit) => {
  expect(read(text, unit)).toBe(bounds);
});

test.each<[string, string, UnitId?]>([
  ['', 'limit-unreadable'],
  ['tight', 'limit-unreadable'],
  ['±1', 'limit-unreadable'],
  ['27 +2', 'limit-unreadable'],
  ['27 +2/1', 'limit-unreadable'],
  ['2 0 -1', 'limit-unreadable'],
  ['max', 'limit-unreadable'],
  ['max.4', 'limit-unreadable'],
  ['4 max', 'limit-unreadable'],
  ['max 4 5', 'limit-unreadable'],
  ['< 4', 'limit-unreadable'],
  ['36 - 40', 'limit-unreadable'],
  ['36–40 mm', 'limit-unreadable'],
  ['36 to 38 to 40', 'limit-unreadable'],
  ['4 furlongs', 'limit-unreadable'],
  ['1/3', 'limit-unreadable', 'in'],
  ['10 min', 'limit-ambiguous', 'min'],
  ['10 min', 'limit-ambiguous'],
  ['1.5 in', 'limit-unit'],
  ['38 ±5 %', 'limit-unit'],
  ['40 to 36', 'limit-upside-down'],
  ['38 ±-1', 'limit-upside-down'],
  ['1,500', 'number-ambiguous'],
  ['max 1,500', 'number-ambiguous'],
  ['1,500 ±2', 'number-ambiguous'],
  ['-4', 'limit-negative'],
  ['1 ±2', 'limit-negative'],
  ['min -1', 'limit-negative', 'pcs'],
  ['22.5', 'limit-not-whole', 'pcs'],
  ['22 ±0.5', 'limit-not-whole', 'pcs'],
])('%j is refused as %s', (text, rule, unit) => {
  expect(read(text, unit)).toBe(rule);
});

test.each<[string, RegExp, UnitId?]>([
  ['1.5 in', /write the limit in mm, or give the blank the unit in\.$/],
  ['36-40', /write a range with the word to, such as 36 to 40\.$/],
  ['10 min', /write min before the number, or the number alone\.$/, 'min'],
  ['40 to 36', /lower bound 40 over its upper bound 36; write the smaller first/],
])('the refusal of %s says what to write', (text, message, unit = 'mm') => {
  const result = readLimit(text, unit);
  expect(result.ok ? '' : result.error.message).toMatch(message);
});

test.each<[string, string, string, UnitId]>([
  ['312 ±1.5', '310.5 to 313.5', '310.5 to 313.5 mm', 'mm'],
  ['max 4', 'at most 4', 'at most 4 mm', 'mm'],
  ['min 10', 'at least 10', 'at least 10 min', 'min'],
  ['22', 'exactly 22', 'exactly 22 pcs', 'pcs'],
])('%s is shown as %s', (text, bounds, words, unit) => {
  const result = readLimit(text, unit);
  expect(result.ok && limitBounds(result.value)).toBe(bounds);
  expect(result.ok && limitWords(result.value)).toBe(words);
});

test('a limit that bounds nothing has no words', () => {
  expect(limitWords({ text: '', unit: 'mm', nominal: null, low: null, high: null })).toBe('');
});

test('no text makes the reader throw, and near misses stay quick', () => {
  const piece = fc.constantFrom(...'0123456789.,/+-±−–½ ', ' to ', 'max ', 'min ', 'mm', 'in', '≤');
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 90 }),
    fc.array(piece, { maxLength: 60 }).map((parts) => parts.join('')),
  );
  fc.assert(
    fc.property(text, fc.constantFrom<UnitId>('mm', 'pcs', 'min', '°C'), (garbage, unit) => {
      expect(typeof readLimit(garbage, unit).ok).toBe('boolean');
    }),
    { numRuns: 2_000 },
  );
  for (const part of ['9', ' ', '1 to ', '+1/-', '±', '1 -', '0/']) {
    expect(read(part.repeat(100_000))).toBe('limit-unreadable');
    for (let length = 1; length <= 80; length += 1) read(part.repeat(80).slice(0, length));
  }
});

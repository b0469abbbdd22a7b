import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readNumber } from '../../src/measure/number.ts';

const read = (text: string): string => {
  const result = readNumber(text);
  return result.ok ? result.value.toFraction(true) : result.error.rule;
};

test.each([
  ['12.5', '12 1/2'],
  ['12,5', '12 1/2'],
  ['1,50', '1 1/2'],
  ['0,500', '1/2'],
  ['1234,500', '1234 1/2'],
  ['1.500', '1 1/2'],
  ['.5', '1/2'],
  ['007', '7'],
  ['+3', '3'],
  ['-3', '-3'],
  ['−3', '-3'],
  ['–3', '-3'],
  ['1/2', '1/2'],
  ['3/2', '1 1/2'],
  ['1 1/2', '1 1/2'],
  ['1\u00a01/2', '1 1/2'],
  ['1-1/2', '1 1/2'],
  ['-1 1/2', '-1 1/2'],
  ['1⁄2', '1/2'],
  ['½', '1/2'],
  ['1½', '1 1/2'],
  ['1 ⅞', '1 7/8'],
  ['-½', '-1/2'],
  [' 4 ', '4'],
])('%j is %s', (text, fraction) => {
  expect(read(text)).toBe(fraction);
});

test.each(['1,500', '-1,500', '+12,345', '999,000'])('%s could be two numbers', (text) => {
  expect(read(text)).toBe('number-ambiguous');
});

test('an ambiguous number names what it could mean', () => {
  expect(readNumber('−1,500')).toMatchObject({
    error: { message: '"−1,500" could be -1.500 or -1500; write -1.500 or -1500, with no comma.' },
  });
});

test.each([
  ['1 500', '1500'],
  ['1\u202f500,25', '1500.25'],
  ['1,500.5', '1500.5'],
  ['1.500,5', '1500.5'],
  ['1,234,567', '1234567'],
  ['12’000', '12000'],
])('%s is not guessed at, and %s is offered', (text, plain) => {
  const message = `"${text}" is grouped by thousands; write ${plain} without grouping.`;
  expect(readNumber(text)).toMatchObject({ ok: false, error: { rule: 'number-unreadable', message } });
});

test.each([
  ...[
    '',
    ' ',
    '-',
    '.',
    '5.',
    '--5',
    '1/0',
    '0/0',
    '1 1/0',
    '1 3/2',
    '½½',
    '½2',
    '1½/2',
    '1−1/2',
    '1–1/2',
    '1/2/3',
    '1.5/2',
    '6 5',
  ],
  ...[
    '1e999',
    '1e3',
    'NaN',
    'Infinity',
    '-Infinity',
    '0x10',
    '1_000',
    "0.'3'",
    '0.(3)',
    '1:2',
    '١٢',
    '\uff11\uff12',
    'undefined',
    '⅟',
  ],
  '9'.repeat(41),
])('%j is no number', (text) => {
  expect(read(text)).toBe('number-unreadable');
});

test('digits without end are refused without being read', () => {
  for (const text of ['9', ' ', '1/', '1 ', '½', ',500'].map((part) => part.repeat(100_000))) {
    expect(read(text)).toBe('number-unreadable');
  }
});

test('a refusal quotes little, and nothing that could move the cursor', () => {
  const result = readNumber(`\u001b[2J\u202e\ud800${'x'.repeat(1_000)}`);
  expect(result.ok ? '' : result.error.message).toMatch(/^"�\[2J��x{18}…" is too long/);
});

test('no text makes the reader throw', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
      expect(typeof readNumber(text).ok).toBe('boolean');
    }),
  );
});

import { expect, test } from 'vitest';
import { canonicalText } from '../../src/ledger/canonical.ts';
import vectors from './data/rfc8785.json' with { type: 'json' };

test.each(vectors.files)(`canonical form of the file $name: ${vectors.source[1]}`, ({ input, canonicalUtf8Hex }) => {
  expect(Buffer.from(canonicalText(JSON.parse(input))).toString('hex')).toBe(canonicalUtf8Hex);
});

test.each(vectors.numbers)(`number $ieee is written $json: ${vectors.source[0]}`, ({ ieee, json }) => {
  expect(canonicalText(numberOf(ieee))).toBe(json);
});

test.each(vectors.mustFail)(`number %s is refused: ${vectors.source[0]}`, (ieee) => {
  expect(() => canonicalText(numberOf(ieee))).toThrow();
});

/** The IEEE 754 double with these bits. */
const numberOf = (hex: string): number => Buffer.from(hex, 'hex').readDoubleBE();

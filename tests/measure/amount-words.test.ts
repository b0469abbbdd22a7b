import { expect, test } from 'vitest';
import { amountWords } from '../../src/measure/amount-words.ts';

test.each([
  ['312.5', 'mm', '312.5 mm'],
  ['11', 'min', '11 min'],
  ['0.183333', 'min', '11 s'],
  ['0.816667', 'min', '49 s'],
  ['62.5', 'min', '1 h 2 min 30 s'],
  ['1.5', 'h', '1 h 30 min'],
  ['90', 's', '90 s'],
  ['0.001', 'min', '0 min'],
])('%s %s is said as %s', (value, unit, said) => expect(amountWords(value, unit)).toBe(said));

import { expect, test } from 'vitest';
import { toDecimalAt } from '../../src/measure/decimal.ts';
import { judge, type Verdict } from '../../src/measure/judge.ts';
import { readLimit } from '../../src/measure/limit.ts';
import { readNumber } from '../../src/measure/number.ts';
import conformity from './data/conformity.json' with { type: 'json' };
import traps from './data/float-traps.json' with { type: 'json' };

const number = (text: string) => {
  const result = readNumber(text);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};

/** In a unit that may be negative, so that a voltage can stand in for a temperature. */
const verdict = (value: string, text: string): Verdict['is'] => {
  const limit = readLimit(text, '°C');
  if (!limit.ok) throw new Error(limit.error.message);
  return judge(number(value), limit.value).is;
};

const { simpleAndGuarded, absoluteMethod, examples } = conformity;

test.each(simpleAndGuarded.rows)(`$value: ${simpleAndGuarded.source}`, ({ value, simple, guarded }) => {
  expect(verdict(value, simpleAndGuarded.limit) === 'within').toBe(simple);
  expect(verdict(value, '10 ±0.5') === 'within').toBe(simple);
  expect(verdict(value, simpleAndGuarded.guarded) === 'within').toBe(guarded);
});

test.each(absoluteMethod.rows)(`$value against $limit: ${absoluteMethod.source}`, ({ value, limit, conforms }) => {
  expect(verdict(value, limit) === 'within').toBe(conforms);
});

test.each(examples.rows)(`$what: ${examples.source}`, ({ value, limit, is }) => {
  expect(verdict(value, limit)).toBe(is);
});

test.each(traps.rows)(`$x to $places places is $rounded: ${traps.source}`, ({ x, places, rounded, double }) => {
  expect(toDecimalAt(number(x), places)).toBe(rounded);
  if (double !== null && double !== rounded) expect(Number(x).toFixed(places)).not.toBe(rounded);
});

test('a tenth and two tenths are three tenths, on the bound and within (IEEE 754 doubles say 0.30000000000000004)', () => {
  const sum = number('0.1').add(number('0.2'));
  expect(0.1 + 0.2 > 0.3).toBe(true);
  for (const text of ['max 0.3', '0.3', '0.2 ±0.1', '0.1 +0.2/-0']) {
    const limit = readLimit(text, 'mm');
    expect(limit.ok && judge(sum, limit.value)).toEqual({ is: 'within' });
  }
});

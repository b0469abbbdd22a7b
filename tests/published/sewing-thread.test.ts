import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { numericNeedle } from '../../src/measure/needle-size.ts';
import { type ThreadNumbering, threadNumber } from '../../src/measure/thread-number.ts';
import { lockstitchRatio, threadFor } from '../../src/thread/consumption.ts';
import thread from './data/sewing-thread.json' with { type: 'json' };

const isWithin = (found: Fraction, printed: string, within: string): boolean => found.sub(printed).abs().lte(within);

test.each(thread.numbers.constants)(
  `$what is printed as $printed: ${thread.numbers.source}`,
  ({ of, printed, within }) => {
    const [amount = '', from, to] = of;
    const found = threadNumber(new Fraction(amount), from as ThreadNumbering, to as ThreadNumbering);
    expect(isWithin(found, printed, within)).toBe(true);
  },
);

test.each(thread.needles.rows)(
  `a needle ${'$metric'} is a $numeric: ${thread.needles.source}`,
  ({ metric, numeric }) => {
    expect(numericNeedle(metric)).toBe(numeric);
    if (numeric < 19) expect(60 + 5 * (numeric - 8)).toBe(metric);
  },
);

test.each(thread.lockstitch.printed)(
  `301 is printed as $ratio: ${thread.lockstitch.source}`,
  ({ thickness, stitches, ratio }) => {
    const { needle, under } = lockstitchRatio(new Fraction(thickness), new Fraction(1).div(stitches));
    expect(needle.add(under).equals(ratio)).toBe(true);
  },
);

test.each(thread.lockstitch.rows)(
  `301 of $stitchLength mm in $thickness mm takes $ratio: ${thread.lockstitch.source}`,
  ({ stitchLength, thickness, ratio, bobbinPerMetre }) => {
    const found = lockstitchRatio(new Fraction(thickness), new Fraction(stitchLength));
    expect(isWithin(found.needle.add(found.under), ratio, '0.0000005')).toBe(true);
    expect(isWithin(found.under.mul(1000), bobbinPerMetre, '0.0005')).toBe(true);
  },
);

test(`waste comes on top: ${thread.waste.source}`, () => {
  const ratio = { needle: new Fraction(thread.waste.needle), under: new Fraction(thread.waste.under) };
  const sum = (waste: string): Fraction => {
    const { needle, under } = threadFor(ratio, new Fraction(thread.waste.seam), new Fraction(waste));
    return needle.add(under);
  };
  expect(sum('0').equals(thread.waste.plain)).toBe(true);
  expect(sum('15').equals(thread.waste.wasted)).toBe(true);
});

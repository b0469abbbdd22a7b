import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { toDecimalAt } from '../../src/measure/decimal.ts';
import { convert } from '../../src/measure/unit.ts';
import density from './data/stitch-density.json' with { type: 'json' };

const per100mm = (stitchLength: string): Fraction => new Fraction('100').div(stitchLength);
const differs = (a: Fraction, b: string): Fraction => a.sub(b).abs();

test.each(density.spi.rows)(
  `$spi spi is $per100mm in 100 mm: ${density.spi.source}`,
  ({ spi, per100mm: count, lengthMm }) => {
    const found = convert(new Fraction(spi), 'spi', 'st/100mm');
    expect(toDecimalAt(found, 4)).toBe(count);
    expect(toDecimalAt(new Fraction('100').div(found), 4)).toBe(lengthMm);
  },
);

test.each(density.printed.rows)(
  `$spi spi is printed as $lengthMm mm: ${density.printed.source}`,
  ({ spi, lengthMm, within }) => {
    const length = new Fraction('100').div(convert(new Fraction(spi), 'spi', 'st/100mm'));
    expect(differs(length, lengthMm).lte(within)).toBe(true);
  },
);

test.each(density.stitchLength.rows)(
  `stitches of $mm mm are $per25mm in 25 mm and $spi in an inch: ${density.stitchLength.source}`,
  ({ mm, per25mm, spi }) => {
    expect(differs(convert(per100mm(mm), 'st/100mm', 'st/25mm'), per25mm).lte('0.05')).toBe(true);
    expect(differs(convert(per100mm(mm), 'st/100mm', 'spi'), spi).lte('0.05')).toBe(true);
  },
);

import Fraction from 'fraction.js';
import { convert } from './unit.ts';

/** How many stitches of this length lie in 100 mm, in 25 mm and in an inch: one length said in the three ways that machines and gauges say it. */
export interface StitchCount {
  readonly in100mm: Fraction;
  readonly in25mm: Fraction;
  readonly inInch: Fraction;
}

/** `stitchLength` in mm, above 0. */
export function stitchCount(stitchLength: Fraction): StitchCount {
  const in100mm = new Fraction(100).div(stitchLength);
  return {
    in100mm,
    in25mm: convert(in100mm, 'st/100mm', 'st/25mm'),
    inInch: convert(in100mm, 'st/100mm', 'spi'),
  };
}

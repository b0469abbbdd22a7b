import Fraction from 'fraction.js';
import { toDecimalAt } from '../measure/decimal.ts';

/** A length in mm as metres with one place, as on the room's tape: `4.5`. */
export const metresSaid = (mm: Fraction | string): string => toDecimalAt(new Fraction(mm).div(1000), 1);

import { between, type Curve } from './curve.ts';

/**
 * Length of a curve between two of its places, in millimetres, to 1e-9 of a millimetre for panels up to some metres.
 *
 * Gauss-Legendre quadrature of the speed with 16 places, on halves of halves until the two halves say what the whole said. The
 * libraries that measure paths do it with a fixed number of places, which is wrong by millimetres where a curve turns sharply.
 */
export function arcLength(curve: Curve, from = 0, to = 1): number {
  if (curve.is === 'line') return between(curve.at(from), curve.at(to));
  return refined(curve, from, to, integral(curve, from, to), 0);
}

/** Halving 50 times leaves nothing of an interval that could be measured. */
const DEEPEST = 50;
const ENOUGH = 1e-12;

function refined(curve: Curve, from: number, to: number, whole: number, depth: number): number {
  const middle = (from + to) / 2;
  const [first, second] = [integral(curve, from, middle), integral(curve, middle, to)];
  const halves = first + second;
  if (Math.abs(halves - whole) <= Math.max(ENOUGH, halves * 1e-14) || depth >= DEEPEST) return halves;
  return refined(curve, from, middle, first, depth + 1) + refined(curve, middle, to, second, depth + 1);
}

function integral({ slope }: Curve, from: number, to: number): number {
  const [middle, half] = [(from + to) / 2, (to - from) / 2];
  let sum = 0;
  for (const [place, weight] of PLACES) {
    sum += weight * (Math.hypot(...slope(middle - half * place)) + Math.hypot(...slope(middle + half * place)));
  }
  return sum * half;
}

/** Roots of the Legendre polynomial of this degree on one side of 0, with their weights; by Newton's method from Tricomi's estimate. */
const DEGREE = 16;
const PLACES: readonly (readonly [place: number, weight: number])[] = Array.from({ length: DEGREE / 2 }, (_, index) => {
  let x = Math.cos((Math.PI * (index + 0.75)) / (DEGREE + 0.5));
  for (let turn = 0; turn < 10; turn++) {
    const [value, slope] = legendre(x);
    x -= value / slope;
  }
  const [, slope] = legendre(x);
  return [x, 2 / ((1 - x * x) * slope * slope)];
});

/** The Legendre polynomial and its derivative at x, by the recurrence of three terms. */
function legendre(x: number): readonly [number, number] {
  let [before, value] = [1, x];
  for (let n = 2; n <= DEGREE; n++) [before, value] = [value, ((2 * n - 1) * x * value - (n - 1) * before) / n];
  return [value, (DEGREE * (x * value - before)) / (x * x - 1)];
}

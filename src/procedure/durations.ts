import Fraction from 'fraction.js';
import { toDecimal } from '../measure/decimal.ts';
import { readNumber } from '../measure/number.ts';

/** Reads `5 min`, `1 h 20 min`, `90 s` or `1.5 h` as minutes, a decimal; `undefined` when it is none of them or zero. */
export function readDuration(text: string): string | undefined {
  const found = /^(?:(\S+) ?(?:h|hours?))?(?:\s*(\S+) ?(?:min|minutes?))?(?:\s*(\S+) ?(?:s|sec|seconds?))?$/.exec(
    text.trim(),
  );
  if (!found || text.trim() === '') return undefined;
  let minutes = new Fraction(0);
  for (const [part, size] of [
    [found[1], 60n],
    [found[2], 1n],
    [found[3], new Fraction(1, 60)],
  ] as const) {
    if (part === undefined) continue;
    const number = readNumber(part);
    if (!number.ok || number.value.s < 0n) return undefined;
    minutes = minutes.add(number.value.mul(size));
  }
  return minutes.equals(0) ? undefined : toDecimal(minutes);
}

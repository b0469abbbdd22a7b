import Fraction from 'fraction.js';

/**
 * The amount as a plain decimal such as `-12.7`: exact and without needless zeros when the decimal ends, otherwise
 * rounded to six places, half away from zero. Never an exponent, never `-0`.
 */
export function toDecimal(amount: Fraction): string {
  return toDecimalAt(amount, decimalPlaces(amount) ?? ROUNDED_PLACES);
}

/** Whether `toDecimal` loses nothing. */
export function endsAsDecimal(amount: Fraction): boolean {
  return decimalPlaces(amount) !== undefined;
}

/** The amount as a decimal of at most this many places, half away from zero. */
export function toDecimalAt(amount: Fraction, places: number): string {
  const scaled = (amount.n * 10n ** BigInt(places) * 2n + amount.d) / (amount.d * 2n);
  const digits = scaled.toString().padStart(places + 1, '0');
  const whole = digits.slice(0, digits.length - places);
  const rest = digits.slice(digits.length - places).replace(/0+$/, '');
  const sign = amount.s < 0n && scaled !== 0n ? '-' : '';
  return `${sign}${whole}${rest === '' ? '' : `.${rest}`}`;
}

/** The same with all its places, so that numbers stand below each other: `6.0` beside `22.2`. */
export function toFixedDecimal(amount: Fraction, places: number): string {
  const [whole = '', rest = ''] = toDecimalAt(amount, places).split('.');
  return places === 0 ? whole : `${whole}.${rest.padEnd(places, '0')}`;
}

/** Reads a decimal that this program wrote, exactly. Throws on anything else: what a person typed goes to `readNumber`. */
export function fromDecimal(text: string): Fraction {
  const found = /^(-?\d+)(?:\.(\d+))?$/.exec(text);
  if (!found) throw new Error(`not a decimal of ours: ${JSON.stringify(text.slice(0, 40))}`);
  const [, whole = '', rest = ''] = found;
  return new Fraction(BigInt(whole + rest), 10n ** BigInt(rest.length));
}

const ROUNDED_PLACES = 6;

/** Places after the point that the exact decimal needs; `undefined` when it never ends. */
function decimalPlaces(amount: Fraction): number | undefined {
  const twos = timesDivisible(amount.d, 2n);
  const fives = timesDivisible(twos.rest, 5n);
  return fives.rest === 1n ? Math.max(twos.times, fives.times) : undefined;
}

function timesDivisible(number: bigint, by: bigint): { readonly times: number; readonly rest: bigint } {
  let times = 0;
  let rest = number;
  while (rest % by === 0n) {
    rest /= by;
    times += 1;
  }
  return { times, rest };
}

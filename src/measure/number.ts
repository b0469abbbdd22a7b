import Fraction from 'fraction.js';
import { ok, type Result, refuse } from '../base/result.ts';
import { quote } from './quote.ts';

/**
 * Reads a number as people write it, exactly: `12.5`, `12,5`, `+3`, `-3` with a hyphen, a minus or a dash, `1/2`,
 * `1 1/2`, `1-1/2`, `½`, `1½`.
 *
 * A comma before exactly three digits (`1,500`) may be a decimal or a thousands sign and is refused as
 * `number-ambiguous`. A point is the decimal sign of procedures, so `1.500` is one and a half. Thousands are never
 * grouped: `1 500`, with whatever space, is refused, because the space already divides a whole from its fraction.
 * Exponents, zero denominators, whole and improper fraction together, and anything longer than a number can sensibly be
 * are refused as `number-unreadable`.
 */
export function readNumber(text: string): Result<Fraction> {
  if (text.length > LONGEST_NUMBER)
    return refuse('number-unreadable', '{text} is too long for a number; write it in figures, such as 12.5 or 1 1/2.', {
      text: quote(text),
    });
  const tidy = plainSigns(text).trim().replace(/\s+/g, ' ');
  const [, sign = '', size = ''] = /^([+-]?) ?(.*)$/s.exec(tidy) ?? [];
  const thousands = /^([1-9]\d{0,2}),(\d{3})$/.exec(size);
  if (thousands) return ambiguous(text, sign, thousands[1] ?? '', thousands[2] ?? '');
  const found = readDecimal(size) ?? readFraction(size) ?? readVulgar(size);
  if (found) return ok(sign === '-' ? found.neg() : found);
  if (GROUPED.test(size)) {
    return refuse('number-unreadable', '{text} is grouped by thousands; write {plain} without grouping.', {
      text: quote(text),
      plain: ungroup(size),
    });
  }
  return refuse('number-unreadable', '{text} cannot be read as a number; write it in figures, such as 12.5 or 1 1/2.', {
    text: quote(text),
  });
}

/**
 * The same text with hyphens, minuses and dashes as `-`, and every slash of a fraction as `/`. A minus or a dash between
 * two digits stays: `1–1/2` may be a range or a subtraction, where the hyphen of `1-1/2` joins a whole to its fraction.
 */
export function plainSigns(text: string): string {
  return text.replace(/[‐‑﹣-]|(?<!\d)[‒–−]/g, '-').replace(/[⁄∕]/g, '/');
}

const LONGEST_NUMBER = 40;
const GROUPED =
  /^\d{1,3}(?:( |'|’)\d{3}(?:\1\d{3})*(?:[.,]\d+)?|(?:,\d{3})+\.\d+|(?:\.\d{3})+,\d+|(?:,\d{3}){2,}|(?:\.\d{3}){2,})$/;

function ambiguous(text: string, sign: string, whole: string, rest: string): Result<never> {
  const minus = sign === '-' ? '-' : '';
  const decimal = `${minus}${whole}.${rest}`;
  const thousands = `${minus}${whole}${rest}`;
  return refuse(
    'number-ambiguous',
    '{text} could be {decimal} or {thousands}; write {decimal} or {thousands}, with no comma.',
    { text: quote(text), decimal, thousands },
  );
}

/** Only the last sign of a grouped number can be its decimal sign, and only when three digits do not follow it. */
function ungroup(size: string): string {
  const [, whole = size, rest = ''] = /^(.*?)(?:[.,](\d{1,2}|\d{4,}))?$/s.exec(size) ?? [];
  return `${whole.replace(/\D/g, '')}${rest === '' ? '' : `.${rest}`}`;
}

function readDecimal(size: string): Fraction | undefined {
  const found = /^(?:(\d+)(?:[.,](\d+))?|[.,](\d+))$/.exec(size);
  if (!found) return undefined;
  const whole = found[1] ?? '';
  const rest = found[2] ?? found[3] ?? '';
  return new Fraction(BigInt(whole + rest), 10n ** BigInt(rest.length));
}

function readFraction(size: string): Fraction | undefined {
  const found = /^(?:(\d+)[ -])?(\d+) ?\/ ?(\d+)$/.exec(size);
  return found ? mixed(found[1], BigInt(found[2] ?? ''), BigInt(found[3] ?? '')) : undefined;
}

/** Characters such as `½` decompose into two numbers and a fraction slash in Unicode's compatibility form. */
function readVulgar(size: string): Fraction | undefined {
  const found = /^(?:(\d+)[ -]?)?([¼-¾⅐-⅞↉])$/.exec(size);
  if (!found) return undefined;
  const [top = '', bottom = ''] = (found[2] ?? '').normalize('NFKC').split('⁄');
  return mixed(found[1], BigInt(top), BigInt(bottom));
}

function mixed(whole: string | undefined, top: bigint, bottom: bigint): Fraction | undefined {
  if (bottom === 0n) return undefined;
  if (whole === undefined) return new Fraction(top, bottom);
  return top < bottom ? new Fraction(BigInt(whole) * bottom + top, bottom) : undefined;
}

import { ok, type Result, refuse } from '../base/result.ts';
import { toDecimal } from '../measure/decimal.ts';
import { readNumber } from '../measure/number.ts';
import type { Formula } from './formula.ts';

/**
 * Reads the expression of a computed point: `+ - * /`, round brackets, `|x|`, numbers and names of readings. `×`, `÷`
 * and the minus sign of print are read too. Refused as `formula-unreadable`, with the sentence to show.
 */
export function readFormula(text: string): Result<Formula> {
  if (text.length > LONGEST) return unreadable('it is longer than 200 characters');
  const tokens = text
    .replace(/[‐‑‒–−]/g, '-')
    .replaceAll('×', '*')
    .replaceAll('÷', '/')
    .match(/\d+(?:[.,]\d+)*|[\p{L}][\p{L}\p{N}_]*|\S/gu);
  const reader = { tokens: tokens ?? [], at: 0 };
  const formula = sum(reader);
  if (!formula.ok) return formula;
  const rest = reader.tokens[reader.at];
  return rest === undefined ? formula : unreadable(`${JSON.stringify(rest)} does not belong there`);
}

/** The longest formula also bounds how deep its brackets can nest. */
const LONGEST = 200;

interface Reader {
  readonly tokens: readonly string[];
  at: number;
}

const unreadable = (why: string): Result<never> => refuse('formula-unreadable', `This formula cannot be read: ${why}.`);

function sum(reader: Reader): Result<Formula> {
  return chain(reader, (token) => token === '+' || token === '-', product);
}

function product(reader: Reader): Result<Formula> {
  return chain(reader, (token) => token === '*' || token === '/', factor);
}

function chain(
  reader: Reader,
  joins: (token: string) => token is '+' | '-' | '*' | '/',
  part: (reader: Reader) => Result<Formula>,
): Result<Formula> {
  let left = part(reader);
  while (left.ok) {
    const sign = reader.tokens[reader.at];
    if (sign === undefined || !joins(sign)) return left;
    reader.at += 1;
    const right = part(reader);
    if (!right.ok) return right;
    left = ok({ do: sign, left: left.value, right: right.value });
  }
  return left;
}

function factor(reader: Reader): Result<Formula> {
  const token = reader.tokens[reader.at];
  reader.at += 1;
  if (token === undefined) return unreadable('something is missing at its end');
  if (token === '-') {
    const of = factor(reader);
    return of.ok ? ok({ do: 'minus', of: of.value }) : of;
  }
  if (token === '(' || token === '|') {
    const inner = sum(reader);
    if (!inner.ok) return inner;
    const close = token === '(' ? ')' : '|';
    if (reader.tokens[reader.at] !== close) return unreadable(`a ${close} is missing`);
    reader.at += 1;
    return token === '(' ? inner : ok({ do: 'size', of: inner.value });
  }
  if (/^\d/.test(token)) {
    const number = readNumber(token);
    return number.ok
      ? ok({ do: 'number', value: toDecimal(number.value) })
      : unreadable(number.error.message.replace(/\.$/, ''));
  }
  if (/^\p{L}/u.test(token)) return ok({ do: 'name', name: token });
  return unreadable(`${JSON.stringify(token)} stands where a number or a name belongs`);
}

import Fraction from 'fraction.js';
import { ok, type Result, refuse } from '../base/result.ts';
import { toDecimal, toDecimalAt } from '../measure/decimal.ts';
import { metricNeedles, numericNeedle } from '../measure/needle-size.ts';
import { readNumber } from '../measure/number.ts';
import { stitchCount } from '../measure/stitch-count.ts';
import { type ThreadNumbering, threadNumber, threadNumberings } from '../measure/thread-number.ts';
import { convert, findUnit, unitKind } from '../measure/unit.ts';
import { cannot, type ExitCode, type Io, say, sayJson } from './io.ts';

/** One way to number it, and its number in that. */
type Numbered = readonly [way: string, number: string];

/** A thread, a needle or a stitch in every way it is numbered. */
export function size(words: readonly string[], { json }: { readonly json?: boolean }, io: Io): ExitCode {
  const read = numbered(words.join(' ').trim());
  if (!read.ok) return cannot(io, read.error.message);
  const widest = Math.max(...read.value.map(([way]) => way.length));
  if (json) sayJson(io, Object.fromEntries(read.value));
  else for (const [way, number] of read.value) say(io, `${way.padEnd(widest)}  ${number}`);
  return 0;
}

function numbered(text: string): Result<readonly Numbered[]> {
  const [, kind = '', rest = ''] = /^(needle|stitch)\s+(.+)$/i.exec(text) ?? [];
  if (kind.toLowerCase() === 'needle') return needle(rest);
  if (kind.toLowerCase() === 'stitch') return stitch(rest);
  return thread(text);
}

/** A number by length may name its plies: the finished thread of Nm 80/2 is Nm 40. */
function thread(text: string): Result<readonly Numbered[]> {
  const [, digits = '', plies, way = ''] =
    /^([\d.,]+)(?:\/(\d))?\s*(\D+)$/.exec(text) ?? wayFirst(/^(\D+?)\s*([\d.,]+)(?:\/(\d))?$/.exec(text));
  const from = SPELLINGS.get(way.trim().toLowerCase().replace(/\s+/g, ' '));
  const amount = readNumber(digits);
  const isOfLength = from === 'Nm' || from === 'Ne';
  if (from === undefined || !amount.ok || amount.value.lte(0) || plies === '0' || (plies !== undefined && !isOfLength))
    return refuse(
      'size-unknown',
      'Say what it is, such as Tex 70, ticket 40, Nm 40 (of the finished thread) or Nm 80/2, needle 110 or stitch 4 mm.',
    );
  const finished = amount.value.div(plies ?? 1);
  return ok(threadNumberings.map((to) => [NAMES[to], toDecimalAt(threadNumber(finished, from, to), 1)]));
}

const wayFirst = (found: RegExpExecArray | null): readonly (string | undefined)[] =>
  found ? ['', found[2], found[3], found[1]] : [];

const NAMES: Readonly<Record<ThreadNumbering, string>> = {
  tex: 'tex',
  dtex: 'dtex',
  den: 'denier',
  Nm: 'Nm',
  Ne: 'Ne',
  'metric ticket': 'ticket',
  'cotton ticket': 'cotton ticket',
};

const SPELLINGS: ReadonlyMap<string, ThreadNumbering> = new Map([
  ...threadNumberings.map((each) => [NAMES[each].toLowerCase(), each] as const),
  ['den', 'den'],
  ['metric ticket', 'metric ticket'],
]);

/** A metric size is also written Nm 110 on its packet, and both sizes 110/18. */
function needle(text: string): Result<readonly Numbered[]> {
  const [, first, second = first] = /^(?:nm\s*)?(\d{1,3})(?:\s*\/\s*(\d{1,3}))?$/i.exec(text.trim()) ?? [];
  const metric = sizesOf(Number(first)).filter((each) => sizesOf(Number(second)).includes(each));
  if (metric.length === 0)
    return refuse('needle-unknown', `There is no needle ${text}: sizes are 60 to 250 (metric) or 8 to 27 (numeric).`);
  const or = (of: (size: number) => string): string => [...new Set(metric.map(of))].join(' or ');
  return ok([
    ['needle, metric', or(String)],
    ['needle, numeric', or((each) => String(numericNeedle(each)))],
    ['blade', or((each) => `${toDecimal(new Fraction(each, 100))} mm`)],
  ]);
}

/** The metric sizes that a number stands for, itself being metric or numeric. */
const sizesOf = (number: number): readonly number[] =>
  numericNeedle(number) === undefined ? metricNeedles(number) : [number];

function stitch(text: string): Result<readonly Numbered[]> {
  const length = stitchLength(text);
  if (length === undefined)
    return refuse(
      'stitch-unknown',
      'Say how long a stitch is, or how many there are, such as stitch 4 mm or stitch 6 spi.',
    );
  const { in100mm, in25mm, inInch } = stitchCount(length);
  return ok([
    ['stitch length', `${toDecimalAt(length, 2)} mm`],
    ['stitches in 100 mm', toDecimalAt(in100mm, 1)],
    ['stitches in 25 mm', toDecimalAt(in25mm, 1)],
    ['stitches to an inch', toDecimalAt(inInch, 1)],
  ]);
}

/** In mm, from a length or from a count over one. */
function stitchLength(text: string): Fraction | undefined {
  const [, digits = '', unitText = ''] = /^([\d.,/ ½¼¾]+?)\s*([^\d\s.,/½¼¾].*)$/.exec(text) ?? [];
  const [unit, number] = [findUnit(unitText), readNumber(digits)];
  if (unit === undefined || !number.ok || number.value.lte(0)) return undefined;
  if (unitKind(unit) === 'length') return convert(number.value, unit, 'mm');
  return unitKind(unit) === 'stitch density'
    ? new Fraction(100).div(convert(number.value, unit, 'st/100mm'))
    : undefined;
}

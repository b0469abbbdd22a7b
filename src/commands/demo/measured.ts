import type { Limit } from '../../measure/limit.ts';
import type { CountPoint, ReadingPoint } from '../../procedure/procedure.ts';

/**
 * What good work reads at this point, as typed: within half the tolerance of the nominal value, or of the middle of the
 * limit where the nominal is at its edge, to a mark that a rule has. Where the limit is on a computed point further down,
 * the nominal value stands at the end of the words, before its name (`…, 1187 d1`). `dice` answers from 0 up to 1.
 */
export function measured({ text, unit, limit }: ReadingPoint | CountPoint, dice: () => number): string {
  const { from, to } = limit ? goodBand(limit) : around(nominalIn(text), 1);
  if (unit === 'pcs') return String(Math.round((from + to) / 2));
  const width = to - from;
  const mark = width < 0.8 ? 0.1 : width < 2 ? 0.5 : 1;
  const first = Math.ceil(from / mark - ROUNDING);
  const marks = Math.floor(to / mark + ROUNDING) - first + 1;
  return String(Number(((first + Math.floor(dice() * marks)) * mark).toFixed(1)));
}

const ROUNDING = 1e-6;

interface Band {
  readonly from: number;
  readonly to: number;
}

function goodBand(limit: Limit): Band {
  const [nominal, low, high] = [limit.nominal, limit.low, limit.high].map((each) =>
    each === null ? null : Number(each),
  );
  if (typeof low !== 'number') return { from: Number(high) / 5, to: Number(high) / 2 };
  if (typeof high !== 'number') return { from: low, to: low + 10 };
  const atEdge = typeof nominal !== 'number' || nominal === low || nominal === high;
  const middle = atEdge ? (low + high) / 2 : nominal;
  return around(middle, Math.min(middle - low, high - middle) / 2);
}

const around = (middle: number, reach: number): Band => ({ from: middle - reach, to: middle + reach });

function nominalIn(text: string): number {
  const found = /,\s*(\d+(?:\.\d+)?)(?: \w+)?$/.exec(text.trim())?.[1];
  if (found === undefined) throw new Error(`“${text}” has neither a limit nor a nominal value to measure by`);
  return Number(found);
}

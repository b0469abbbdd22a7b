import { columns } from '../base/columns.ts';
import { duration } from '../base/duration.ts';
import { wallTime } from '../base/instant.ts';
import { oneLine, pad, padStart, wrap } from '../base/text.ts';
import { isGoodVerdict } from '../bundle/bundle.ts';
import { amountWords } from '../measure/amount-words.ts';
import type { WhoRow } from './who.ts';
import { kindWords, remarks } from './who-words.ts';

/**
 * The rows for people, as lines of at most `width` columns: under each bundle, day, set and step one line a row with the
 * entry's seq, the time, how long the work took, the hand and what was recorded. Words that are too long go on below; nothing is cut.
 */
export function whoText(rows: readonly WhoRow[], width: number): readonly string[] {
  const seq = Math.max(0, ...rows.map((row) => String(row.seq).length));
  const name = Math.max(0, ...rows.map((row) => columns(oneLine(row.name))));
  const took = Math.max(0, ...rows.map((row) => duration(row.took).length));
  const time = (row: WhoRow): string => (took === 0 ? '' : `${padStart(duration(row.took), took)}  `);
  const lead = seq + name + '  00:00    '.length + (took === 0 ? 0 : took + 2);
  let above = '';
  return rows.flatMap((row) => {
    const heading = headingOf(row);
    const head = heading === above ? [] : [...(above === '' ? [] : ['']), ...wrap(heading, width)];
    above = heading;
    const start = `${padStart(String(row.seq), seq)}  ${wallTime(row.at)}  ${time(row)}${pad(oneLine(row.name), name)}  `;
    const words = wrap(oneLine(wordsOf(row)), Math.max(LEAST_WORDS, width - lead));
    return [...head, ...words.map((line, at) => (at === 0 ? start : ' '.repeat(lead)) + line)];
  });
}

/** Narrower than this nobody reads: the terminal breaks the lines then. */
const LEAST_WORDS = 20;

function headingOf({ ticket, revision, at, set, step, title }: WhoRow): string {
  const where = step === null ? (title ?? '') : `step ${step}, ${title}`;
  const of = set === null ? '' : `set ${set}`;
  const what = [ticket ?? 'Room', revision === null ? '' : `rev ${revision}`, at.slice(0, 10), of, where];
  return oneLine(what.filter((part) => part !== '').join(' · '));
}

function wordsOf(row: WhoRow): string {
  if (row.kind !== 'checked') return [kindWords(row), ...remarks(row)].join('; ');
  const place = row.place !== null && row.place > 1 ? `, place ${row.place}` : '';
  const value = row.unit === null ? (row.value ?? '') : amountWords(row.value ?? '', row.unit);
  // By how much it is outside stands before the limit, not among what else is to be known.
  const also = remarks({ ...row, by: null }).map((each) => `; ${each}`);
  return [row.point === null ? '' : `${row.point}${place}: `, value, judged(row), ...also].join('');
}

/** The limit in brackets, where it says more than the value; a value that is outside it says so first. */
function judged({ verdict, by, unit, limit, value }: WhoRow): string {
  const limits = limit === null || limit === value ? '' : ` (${limit})`;
  if (isGoodVerdict(verdict)) return limits;
  return `, ${by === null ? '' : `${amountWords(by, unit ?? '')} `}${verdict}${limits}`;
}

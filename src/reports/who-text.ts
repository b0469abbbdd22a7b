import { columns } from '../base/columns.ts';
import { wallTime } from '../base/instant.ts';
import { oneLine, pad, padStart, wrap } from '../base/text.ts';
import { amountWords } from '../measure/amount-words.ts';
import type { WhoRow } from './who.ts';

/**
 * The rows for people, as lines of at most `width` columns: under each bundle, day, set and step one line a row with the
 * entry's seq, the time, the hand and what was recorded. Words that are too long go on below; nothing is cut.
 */
export function whoText(rows: readonly WhoRow[], width: number): readonly string[] {
  const seq = Math.max(0, ...rows.map((row) => String(row.seq).length));
  const name = Math.max(0, ...rows.map((row) => columns(oneLine(row.name))));
  const lead = seq + name + '  00:00    '.length;
  let above = '';
  return rows.flatMap((row) => {
    const heading = headingOf(row);
    const head = heading === above ? [] : [...(above === '' ? [] : ['']), ...wrap(heading, width)];
    above = heading;
    const start = `${padStart(String(row.seq), seq)}  ${wallTime(row.at)}  ${pad(oneLine(row.name), name)}  `;
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
  const clock = row.clock === null ? '' : `; the station's clock was ${row.clock}`;
  if (row.kind !== 'checked') {
    const point = row.kind === 'clock-started' || row.kind === 'struck' ? row.point : null;
    const pin = row.meaning?.endsWith(' with PIN') ? '; with PIN' : '';
    return `${[kindWords[row.kind] ?? row.kind, point, row.value].filter(Boolean).join(': ')}${pin}${clock}`;
  }
  const place = row.place !== null && row.place > 1 ? `, place ${row.place}` : '';
  const value = row.unit === null ? (row.value ?? '') : amountWords(row.value ?? '', row.unit);
  const typed = row.typed !== null && row.unit !== null && row.typed !== '' && row.typed !== row.value;
  return [
    `${row.point}${place}: ${value}`,
    typed ? ` (typed ${row.typed})` : '',
    judged(row),
    row.witness === null ? '' : `; ${row.meaning ?? 'witnessed'}: ${row.witness}`,
    row.struck === null ? '' : `; struck: ${row.struck}`,
    row.again ? '; done again later' : '',
    clock,
  ].join('');
}

/** Kinds of entry that do not say by their name what they are. */
const kindWords: Partial<Record<WhoRow['kind'], string>> = {
  'caution-read': 'read',
  'changes-read': 'read what changed',
  'clock-started': 'clock started',
  'sent-back': 'sent back',
  'handed-over': 'handed over',
  'signed-on': 'signed on',
  'gauge-checked': 'gauge checked',
  skilled: 'skill',
  helped: 'stood by',
  'pin-set': 'PIN set',
  'pin-failed': 'wrong PIN',
  'pin-proven': 'right PIN after wrong ones',
  paused: 'left',
  resumed: 'taken up again',
};

/** The limit in brackets, where it says more than the value; a value that is outside it says so first. */
function judged({ verdict, by, unit, limit, value }: WhoRow): string {
  const limits = limit === null || limit === value ? '' : ` (${limit})`;
  if (verdict === 'within' || verdict === 'not judged') return limits;
  return `, ${by === null ? '' : `${amountWords(by, unit ?? '')} `}${verdict}${limits}`;
}

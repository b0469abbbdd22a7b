import { isGoodVerdict } from '../bundle/bundle.ts';
import { amountWords } from '../measure/amount-words.ts';
import type { WhoRow } from './who.ts';

/**
 * Which answers were repeated or struck: each that was given in place of an earlier one, with what that said, and each that was
 * struck and never given again. `rows` hold everything of their bundles, in order.
 */
export function repeated(rows: readonly WhoRow[]): readonly WhoRow[] {
  const last = new Map<string, WhoRow>();
  const found: WhoRow[] = [];
  for (const row of rows) {
    if (row.kind !== 'checked') continue;
    const blank = JSON.stringify([row.ticket, row.set, row.title, row.point, row.place]);
    const earlier = last.get(blank);
    if (earlier) found.push({ ...row, before: beforeWords(earlier) });
    last.set(blank, row);
  }
  const given = new Set(found.map(({ seq }) => seq));
  const leftStruck = [...last.values()].filter(({ seq, struck }) => struck !== null && !given.has(seq));
  return [...found, ...leftStruck].sort((a, b) => a.seq - b.seq);
}

function beforeWords({ value, unit, verdict, by, seq, name, struck, again }: WhoRow): string {
  const amount = (each: string): string => (unit === null ? each : amountWords(each, unit));
  const outside = isGoodVerdict(verdict) ? '' : `, ${by === null ? '' : `${amount(by)} `}${verdict}`;
  const why = struck === null ? (again ? 'the work went back' : 'measured again') : `struck: ${struck}`;
  return `${amount(value ?? '')}${outside} (entry ${seq}, ${name}; ${why})`;
}

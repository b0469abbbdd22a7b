import { duration } from '../base/duration.ts';
import { type Column, table } from './table.ts';
import type { WhoRow } from './who.ts';
import { kindWords, remarks } from './who-words.ts';

/** The rows as one table, as wide as its widest cells need. */
export function whoTable(rows: readonly WhoRow[]): readonly string[] {
  const shape = rows.some((row) => alsoOf(row) !== '') ? [...shapeOf, ALSO] : shapeOf;
  return table(
    shape,
    rows.map((row) => cellsOf(row).slice(0, shape.length)),
    Number.MAX_SAFE_INTEGER,
  );
}

const left = (name: string): Column => ({ name, align: 'left' });
const right = (name: string): Column => ({ name, align: 'right' });

const shapeOf: readonly Column[] = [
  left('ticket'),
  right('set'),
  left('step'),
  left('point'),
  left('hand'),
  left('at'),
  right('took'),
  right('value'),
  left('unit'),
  left('limit'),
  left('verdict'),
  left('revision'),
  right('seq'),
];

/** What was done where it was no answer, and what else is to be known of a row. */
const ALSO = left('also');

function cellsOf(row: WhoRow): readonly string[] {
  const { ticket, set, step, title, point, place, name, at, value, unit, limit, verdict, revision, seq } = row;
  const isAnswer = row.kind === 'checked';
  return [
    ticket ?? '',
    set === null ? '' : String(set),
    [step, title].filter((part) => part !== null).join(' '),
    `${point ?? ''}${place !== null && place > 1 ? `, place ${place}` : ''}`,
    name,
    // To the second: a table is read by people, and the whole stamp is in the other two forms.
    at.replace(/\.\d+/, ''),
    duration(row.took),
    isAnswer ? (value ?? '') : '',
    unit ?? '',
    limit ?? '',
    verdict ?? '',
    revision ?? '',
    String(seq),
    alsoOf(row),
  ];
}

const alsoOf = (row: WhoRow): string =>
  [...(row.kind === 'checked' ? [] : [kindWords(row)]), ...remarks(row)].join('; ');

import { stringify } from 'csv-stringify/sync';
import { showHidden } from '../base/text.ts';
import type { WhoRow } from './who.ts';

/** RFC 4180, with a line of names; what a spreadsheet would run as a formula is defused, and a number stays one. What hides is shown as marks. */
export const whoCsv = (rows: readonly WhoRow[]): string =>
  stringify([...rows], { header: true, columns: [...columnsOf], record_delimiter: '\r\n', cast: { string: defused } });

const columnsOf: readonly (keyof WhoRow)[] = [
  'ticket',
  'kind',
  'set',
  'step',
  'title',
  'point',
  'place',
  'hand',
  'name',
  'at',
  'typed',
  'value',
  'unit',
  'limit',
  'verdict',
  'by',
  'witness',
  'struck',
  'again',
  'clock',
  'revision',
  'seq',
];

const defused = (text: string): string => {
  const shown = showHidden(text);
  return /^[=+\-@\t\r]/.test(text) && !/^[+-]?\d+(?:\.\d+)?$/.test(text) ? `'${shown}` : shown;
};

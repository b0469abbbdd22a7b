import { stringify } from 'csv-stringify/sync';
import type { WhoRow } from './who.ts';

/** RFC 4180, with a line of names; what a spreadsheet would run as a formula is defused, and a number stays one. */
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
  'meaning',
  'struck',
  'again',
  'clock',
  'revision',
  'seq',
];

const defused = (text: string): string =>
  /^[=+\-@\t\r]/.test(text) && !/^[+-]?\d+(?:\.\d+)?$/.test(text) ? `'${text}` : text;

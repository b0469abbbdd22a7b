import { csv } from './csv.ts';
import type { WhoRow } from './who.ts';

/** The rows for a spreadsheet: the columns of the table first, then all others. */
export const whoCsv = (rows: readonly WhoRow[]): string => csv(rows, columnsOf);

const columnsOf: readonly (keyof WhoRow)[] = [
  'ticket',
  'set',
  'step',
  'point',
  'hand',
  'at',
  'took',
  'value',
  'unit',
  'limit',
  'verdict',
  'revision',
  'seq',
  'kind',
  'title',
  'place',
  'name',
  'typed',
  'by',
  'witness',
  'meaning',
  'struck',
  'again',
  'before',
  'expires',
  'waited',
  'lay',
  'clock',
  'language',
  'doneAt',
  'typedBy',
  'folded',
];

import { stringify } from 'csv-stringify/sync';
import { showHidden } from '../base/text.ts';

/** RFC 4180, with a line of names; what a spreadsheet would run as a formula is defused, and a number stays one. What hides is shown as marks. */
export const csv = <T extends object>(rows: readonly T[], columns: readonly (keyof T & string)[]): string =>
  stringify([...rows], { header: true, columns: [...columns], record_delimiter: '\r\n', cast: { string: defused } });

const defused = (text: string): string => {
  const shown = showHidden(text);
  return /^[=+\-@\t\r]/.test(text) && !/^[+-]?\d+(?:\.\d+)?$/.test(text) ? `'${shown}` : shown;
};

import { stringify } from 'csv-stringify/sync';

/** RFC 4180, with a line of names; what a spreadsheet would run as a formula is defused, and a number stays one. */
export const csv = <T extends object>(rows: readonly T[], columns: readonly (keyof T & string)[]): string =>
  stringify([...rows], { header: true, columns: [...columns], record_delimiter: '\r\n', cast: { string: defused } });

const defused = (text: string): string =>
  /^[=+\-@\t\r]/.test(text) && !/^[+-]?\d+(?:\.\d+)?$/.test(text) ? `'${text}` : text;

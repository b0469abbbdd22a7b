import { columns } from '../base/columns.ts';
import type { WhoRow } from './who.ts';
import { whoTable } from './who-table.ts';
import { whoText } from './who-text.ts';

/**
 * The rows for people: a table where it fits whole into `width` columns (null: however wide it is), else lines under headings, so
 * that nothing is cut. All columns of the table are in those lines, too.
 */
export function whoReport(rows: readonly WhoRow[], width: number | null): readonly string[] {
  if (width !== null && width < LEAST_TABLE) return whoText(rows, width);
  const lines = whoTable(rows);
  return width === null || lines.every((line) => columns(line) <= width) ? lines : whoText(rows, width);
}

/** Narrower than this no table of these columns fits, so none is tried. */
const LEAST_TABLE = 110;

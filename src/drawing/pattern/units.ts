import type { DxfFile } from './entities.ts';
import { textOf } from './entities.ts';

/** Millimetres of one unit of a pattern file by what it says itself; `null` where it does not say. */
export function unitsSaid({ units, blocks, entities }: DxfFile): number | null {
  const known = units === null ? undefined : BY_NUMBER.get(units);
  if (known !== undefined) return known;
  const all = [...entities, ...[...blocks.values()].flatMap((block) => block.entities)];
  for (const entity of all) {
    const said = /^units:\s*(\w+)/i.exec(textOf(entity, 1) ?? '')?.[1]?.toUpperCase();
    if (said === 'METRIC') return 1;
    if (said === 'ENGLISH') return INCH;
  }
  return null;
}

/** An inch in millimetres (24 FR 5348, 1959). */
export const INCH = 25.4;

/** Values of `$INSUNITS`; from memory. 0 says nothing. */
const BY_NUMBER: ReadonlyMap<number, number> = new Map([
  [1, INCH],
  [2, 12 * INCH],
  [4, 1],
  [5, 10],
  [6, 1_000],
]);

import { ok, type Result, refuse } from '../../base/result.ts';
import type { DxfFile } from './entities.ts';
import { textOf } from './entities.ts';

/**
 * Millimetres of one unit of a pattern file by what it says itself, in its header or in words such as `Units: METRIC`. Refused as
 * `units-unknown` where it does not say, and where it says two things.
 */
export function unitsSaid({ units, blocks, entities }: DxfFile): Result<number> {
  const header = units === null ? undefined : BY_NUMBER.get(units);
  const words = [...entities, ...blocks.flatMap((block) => block.entities)].map(
    (entity) => /^units:\s*(\w+)/i.exec(textOf(entity, 1) ?? '')?.[1]?.toUpperCase() ?? '',
  );
  const said = new Set([header, ...words.map((word) => BY_WORD.get(word))].filter((each) => each !== undefined));
  const [one, other] = said;
  if (one === undefined)
    return refuse('units-unknown', 'This file does not say its units; say --units mm or --units in.');
  return other === undefined
    ? ok(one)
    : refuse('units-unknown', 'This file says its units in two ways that differ; say --units mm or --units in.');
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

const BY_WORD: ReadonlyMap<string, number> = new Map([
  ['METRIC', 1],
  ['ENGLISH', INCH],
]);

import { csv } from './csv.ts';
import type { StepPart } from './step-text.ts';

/** What a step said, for a spreadsheet. */
export const stepTextCsv = (parts: readonly StepPart[]): string =>
  csv(parts, ['part', 'kind', 'words', 'unit', 'limit', 'places']);

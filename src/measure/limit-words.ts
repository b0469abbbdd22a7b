import type { Limit } from './limit.ts';

/** The limit for a screen, with its unit: `310.5 to 313.5 mm`, `at most 4 mm`, `at least 10 min`, `exactly 22 pcs`. */
export function limitWords(limit: Limit): string {
  const bounds = limitBounds(limit);
  return bounds === '' ? '' : `${bounds} ${limit.unit}`;
}

/** The same without the unit, for a column that has it already; empty when the limit bounds nothing. */
export function limitBounds({ low, high }: Limit): string {
  if (low !== null && high !== null) return low === high ? `exactly ${low}` : `${low} to ${high}`;
  if (high !== null) return `at most ${high}`;
  return low === null ? '' : `at least ${low}`;
}

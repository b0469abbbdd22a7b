import type { Step } from './procedure.ts';

/** Drawings by the addresses that a procedure gives them, those that a step shows first: what is named there is looked for in them before all. */
export function nearestFirst<Drawn extends { readonly address: string }>(
  drawings: readonly Drawn[],
  { pictures }: Step,
): readonly Drawn[] {
  const own = drawings.filter(({ address }) => pictures.some((picture) => picture.address === address));
  return [...new Set([...own, ...drawings])];
}

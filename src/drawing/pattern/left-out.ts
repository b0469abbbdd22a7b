import type { Entity } from './entities.ts';

/** Entities that are not in the drawing, or not as what they were meant. */
export interface LeftOut {
  readonly type: string;
  readonly layer: string;
  readonly count: number;
  readonly why: string;
  /** `expected`: nothing of the pattern is lost. `lost`: somebody must look at it. */
  readonly matters: 'expected' | 'lost';
}

export interface Tally {
  readonly note: (entity: Entity, why: string, matters: LeftOut['matters']) => void;
  /** By type, layer and reason, the lost first. */
  readonly list: () => readonly LeftOut[];
}

export function tally(): Tally {
  const counts = new Map<string, LeftOut>();
  return {
    note: ({ type, layer }, why, matters) => {
      const key = JSON.stringify([type, layer, why, matters]);
      counts.set(key, { type, layer, why, matters, count: (counts.get(key)?.count ?? 0) + 1 });
    },
    list: () =>
      [...counts.values()].sort(
        (a, b) =>
          Number(a.matters === 'expected') - Number(b.matters === 'expected') ||
          a.layer.localeCompare(b.layer, 'en', { numeric: true }) ||
          a.type.localeCompare(b.type, 'en'),
      ),
  };
}

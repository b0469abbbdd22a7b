import type { UnitId } from './unit.ts';

/**
 * What a value must be, in the unit of its blank. Bounds are inclusive. `low`, `high` and `nominal` are decimal strings
 * in that unit, exact; `null` where the notation gives none (`max 4` has no low and no nominal).
 */
export interface Limit {
  readonly text: string;
  readonly unit: UnitId;
  readonly nominal: string | null;
  readonly low: string | null;
  readonly high: string | null;
}

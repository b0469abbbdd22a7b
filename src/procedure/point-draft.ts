import type { Point } from './procedure.ts';

/** A point with what the checks over the whole procedure still need to know. */
export interface PointDraft {
  readonly point: Point;
  /** Offset of its words. */
  readonly at: number;
  /** The code span before the blank, also of a point that is no number. */
  readonly name: { readonly text: string; readonly at: number } | null;
  /** Offset of a place in the formula by its index there; `null` when nothing is computed. */
  readonly formulaAt: ((index: number) => number) | null;
  readonly formulaText: string;
}

import type { PointId, StepId } from '../base/brand.ts';
import type { Limit } from '../measure/limit.ts';

/** What a difference is about: the procedure as a whole, or something of a step. */
export type About =
  | 'title'
  | 'sets'
  | 'order of work'
  | 'how often cautions are read'
  | 'kit'
  | 'introduction'
  | 'step'
  | 'scope'
  | 'cannot be undone'
  | 'seams'
  | 'if out'
  | 'skill'
  | 'allowed time'
  | 'words'
  | 'picture'
  | 'caution'
  | 'point'
  | 'limit';

/**
 * How it differs. `moved`: within the step, or a step among the steps; `moved here`: a point from another step. `reworded`: the same thing in other words. `changed`: another thing in its place. `redrawn`: a picture of the same name that shows something else. Of a limit: `tightened` when all it
 * lets through the old one let through too, `widened` the other way round, `shifted` when neither is so.
 */
export type Change =
  | 'added'
  | 'removed'
  | 'moved'
  | 'moved here'
  | 'reworded'
  | 'changed'
  | 'redrawn'
  | 'tightened'
  | 'widened'
  | 'shifted';

/** One thing that is new, gone or different between two texts of a procedure. */
export interface Difference {
  readonly about: About;
  readonly change: Change;
  /** Number and id of the step in the newer text; of a removed step, in the older; null for the whole procedure. */
  readonly step: number | null;
  readonly stepId: StepId | null;
  /** The point's id, likewise, where it is about one. */
  readonly point: PointId | null;
  /** Where the thing is said: the words of the point or of the picture whose limit or address differs. */
  readonly of: string | null;
  /** In the words of the older text; null for what it did not have. Of something moved: the number of its place, of a point moved here that of its step. */
  readonly before: string | null;
  readonly after: string | null;
  /** Both limits, where it is about one. */
  readonly limits: { readonly before: Limit | null; readonly after: Limit | null } | null;
}

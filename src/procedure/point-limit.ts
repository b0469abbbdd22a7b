import type { Limit } from '../measure/limit.ts';
import type { Point } from './procedure.ts';

/** The limit that a point carries; null where it has none. */
export const limitOf = (point: Point): Limit | null => ('limit' in point ? point.limit : null);

/** Whether an answer can be out: of a limit, or none of the options that are acceptable. */
export const canBeOut = (point: Point): boolean =>
  point.kind === 'choice' ? point.options.some(({ acceptable }) => !acceptable) : limitOf(point) !== null;

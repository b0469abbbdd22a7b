import { ok, type Result } from '../../base/result.ts';
import { pathInPlace } from '../path-in-place.ts';
import { entityPath } from './entity-path.ts';
import type { Item } from './gather.ts';

/** The path of an item in its place, in millimetres, y downward. Refused as `entityPath` and `pathInPlace` refuse. */
export function itemPath({ entity, matrix }: Item): Result<string> {
  const data = entityPath(entity);
  if (!data.ok) return data;
  const placed = pathInPlace(data.value, matrix);
  return placed.ok ? ok(placed.value.path) : placed;
}

import { placeAlong } from '../along.ts';
import type { Point } from '../curve.ts';
import type { Box } from '../drawing.ts';
import { lengthOf } from '../length.ts';
import { moved } from '../matrix.ts';
import { awayFrom, isInside, moments } from '../polygon.ts';
import { pointOf } from './entity-path.ts';
import type { Group, Item } from './gather.ts';
import { itemPath } from './item-path.ts';
import { layerNamed } from './layers.ts';
import { type Outline, outlinesOf } from './outline.ts';

/** What stands outside of blocks, parted by the outlines it lies in or on; a block stays whole. */
export function partedByOutlines(group: Group): readonly Group[] {
  if (group.name !== null) return [group];
  const outlines = outlinesOf(
    group.items.flatMap((item) => (layerNamed(item.entity.layer)?.becomes === 'piece' ? (pathOf(item) ?? []) : [])),
  ).closed;
  if (outlines.length < 2 || outlines.length > MOST_PIECES) return [group];
  const inside = new Map<Outline | null, Item[]>(outlines.map((outline) => [outline, []]));
  inside.set(null, []);
  for (const item of group.items) inside.get(home(item, outlines))?.push(item);
  return [...inside.values()].filter((items) => items.length > 0).map((items) => ({ name: null, items }));
}

/** More pieces than these come in blocks. */
const MOST_PIECES = 200;

const isNear = ({ x, y, width, height }: Box, [px, py]: Point): boolean =>
  px >= x - 1 && px <= x + width + 1 && py >= y - 1 && py <= y + height + 1;

function home(item: Item, outlines: readonly Outline[]): Outline | null {
  const place = placeOf(item);
  if (place === undefined) return null;
  const near = outlines.filter(({ box }) => isNear(box, place));
  const on = near.find(({ points }) => awayFrom(points, place) < 0.1);
  const around = near.filter(({ points }) => isInside(points, place));
  return on ?? around.sort((a, b) => sizeOf(a) - sizeOf(b))[0] ?? null;
}

const sizeOf = ({ points }: Outline): number => Math.abs(moments(points)[0]);

/** The middle of a line: its ends may lie on the outline of a neighbour. */
function placeOf(item: Item): Point | undefined {
  const path = pathOf(item);
  const point = pointOf(item.entity, 10);
  return path === undefined ? point && moved(item.matrix, ...point) : placeAlong(path, lengthOf(path) / 2);
}

function pathOf(item: Item): string | undefined {
  const path = itemPath(item);
  return path.ok ? path.value : undefined;
}

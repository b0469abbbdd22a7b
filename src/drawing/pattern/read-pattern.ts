import { ok, type Result, refuse } from '../../base/result.ts';
import { placeAlong } from '../along.ts';
import type { Point } from '../curve.ts';
import type { Box } from '../drawing.ts';
import { lengthOf } from '../length.ts';
import { moved } from '../matrix.ts';
import { MOST_COMMANDS, pathInPlace } from '../path-in-place.ts';
import { awayFrom, isInside, moments } from '../polygon.ts';
import { type Entity, entitiesOf } from './entities.ts';
import { entityPath, pointOf } from './entity-path.ts';
import { type Group, gather, type Item } from './gather.ts';
import { layerNamed } from './layers.ts';
import { type LeftOut, tally } from './left-out.ts';
import { type Outline, outlinesOf } from './outline.ts';
import { type PatternPiece, pieceOf } from './piece.ts';
import { readTags } from './tags.ts';
import { INCH, unitsSaid } from './units.ts';

export interface Pattern {
  readonly pieces: readonly PatternPiece[];
  /** Millimetres of one unit of the file. */
  readonly perUnit: number;
  /** Everything of the file that is not in the pieces, or not as it was meant. */
  readonly leftOut: readonly LeftOut[];
}

/**
 * Reads a pattern from an ASCII DXF file with the layers of ASTM D6673. `units` is what somebody says of the file, and counts before what it
 * says itself. Never throws. Refused as `pattern-empty`, and as `readTags`, `unitsSaid` and `gather` refuse.
 */
export function readPattern(text: string, units: 'mm' | 'in' | null): Result<Pattern> {
  const tags = readTags(text);
  if (!tags.ok) return tags;
  const file = entitiesOf(tags.value);
  const said = units === null ? unitsSaid(file) : ok(units === 'in' ? INCH : 1);
  if (!said.ok) return said;
  const perUnit = said.value;
  const left = tally();
  const groups = gather(file, perUnit, left);
  if (!groups.ok) return groups;
  const points = groups.value.flatMap(({ items }) => items.map(({ entity }) => pointsOf(entity)));
  if (points.reduce((sum, each) => sum + each, 0) > MOST_COMMANDS) return refuse('dxf-large', LARGE);
  const pieces = groups.value.flatMap(apart).map((group) => pieceOf(group, left));
  const drawn = pieces.filter(({ parts, labels }) => parts.length > 0 || labels.length > 0);
  if (drawn.every(({ parts }) => parts.length === 0)) {
    return refuse(
      'pattern-empty',
      'There is nothing in this file that could be drawn; export it with its lines, as ASCII DXF, release 12.',
    );
  }
  if (drawn.reduce((sum, { parts, labels }) => sum + parts.length + labels.length + 2, 0) > MOST_DRAWN)
    return refuse('dxf-large', LARGE);
  return ok({ pieces: drawn, perUnit, leftOut: left.list() });
}

/** Lines and words of a drawing, which is read again with no more elements than this. */
const MOST_DRAWN = 4_500;
const LARGE = 'This file draws more than one drawing can hold; export fewer pieces at once.';

const pointsOf = ({ type, vertices, tags }: Entity): number =>
  type === 'LWPOLYLINE' ? tags.filter(({ code }) => code === 10).length : (vertices?.length ?? 0);

/** What stands outside of blocks, parted by the outlines it lies in or on. */
function apart(group: Group): readonly Group[] {
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

function pathOf({ entity, matrix }: Item): string | undefined {
  const data = entityPath(entity);
  const placed = data.ok ? pathInPlace(data.value, matrix) : data;
  return placed.ok ? placed.value.path : undefined;
}

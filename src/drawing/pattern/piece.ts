import { between, type Point } from '../curve.ts';
import type { Label, Part } from '../drawing.ts';
import { enlargement, moved } from '../matrix.ts';
import { FURTHEST } from '../numbers.ts';
import { awayFrom, isInside } from '../polygon.ts';
import { type Entity, numberOf, textOf } from './entities.ts';
import { pointOf } from './entity-path.ts';
import type { Group, Item } from './gather.ts';
import { itemPath } from './item-path.ts';
import { type Layer, layerNamed } from './layers.ts';
import type { Tally } from './left-out.ts';
import { type Outline, outlinesOf } from './outline.ts';
import { plainWords } from './plain-words.ts';

/** A piece of a pattern as it was read; places in millimetres, y downward. */
export interface PatternPiece {
  readonly name: string | null;
  /** What else the file says of it, such as `Size: 40`. */
  readonly said: readonly string[];
  readonly parts: readonly PatternPart[];
  readonly labels: readonly Label[];
}

interface PatternPart {
  readonly kind: Part['kind'];
  /** Begins its id. */
  readonly prefix: string;
  readonly path: string;
}

/** Makes a piece of what a group draws. */
export function pieceOf({ name, items }: Group, left: Tally): PatternPiece {
  const words = items
    .filter(({ entity }) => entity.type === 'TEXT' && !isLeftOut(entity))
    .flatMap((item) => readWords(item, left));
  const named = words.find(({ key }) => key === 'piece name')?.value;
  const outlines = outlinesOf(boundary(items, left));
  if (outlines.open.length > 0) {
    const [entity] = items.filter((item) => layerOf(item.entity) === BOUNDARY).map((item) => item.entity);
    if (entity)
      left.note({ ...entity, type: 'outline' }, 'it is not closed, and drawn as lines without a meaning', 'lost');
  }
  const parts: PatternPart[] = [
    ...outlines.closed.map(({ path }) => ({ kind: 'piece' as const, prefix: 'piece', path })),
    ...outlines.open.map((path) => ({ kind: 'other' as const, prefix: 'open', path })),
    ...items.flatMap((item) => partOf(item, outlines.closed, left)),
  ];
  return {
    name: named || name,
    said: words.filter(({ key }) => key !== null && key !== 'piece name').map(({ text }) => text),
    parts,
    labels: words.filter(({ key }) => key === null).map(({ label }) => label),
  };
}

const BOUNDARY = layerNamed('1');
const layerOf = ({ layer }: Entity): Layer | undefined => layerNamed(layer);

const isLeftOut = (entity: Entity): boolean => layerOf(entity)?.becomes === 'left out';

/** Types that say nothing of their own. */
const SILENT: ReadonlySet<string> = new Set(['SEQEND', 'ATTDEF']);

/** The lines on layer 1, in place. */
function boundary(items: readonly Item[], left: Tally): readonly string[] {
  return items.flatMap((item) => {
    const { entity } = item;
    if (layerOf(entity) !== BOUNDARY || entity.type === 'TEXT' || entity.type === 'POINT') return [];
    const path = inPlace(item, left);
    return path === undefined ? [] : [path];
  });
}

function partOf(item: Item, outlines: readonly Outline[], left: Tally): readonly PatternPart[] {
  const { entity } = item;
  const layer = layerOf(entity);
  if (SILENT.has(entity.type)) {
    left.note(entity, 'it holds nothing that is drawn', 'expected');
    return [];
  }
  if (layer !== undefined && isLeftOut(entity)) {
    left.note(entity, layer.means, 'expected');
    return [];
  }
  if (entity.type === 'TEXT' || (layer === BOUNDARY && entity.type !== 'POINT')) return [];
  const { becomes = 'other', prefix = 'line' } = layer ?? {};
  const kind = becomes === 'piece' || becomes === 'words' || becomes === 'left out' ? 'other' : becomes;
  const path = entity.type === 'POINT' ? placePath(item, kind, outlines, left) : inPlace(item, left);
  if (path === undefined) return [];
  if (layer === undefined)
    left.note(entity, 'its layer is not known, so it is drawn as a line without a meaning', 'lost');
  if (layer?.prefix === 'mirror') left.note(entity, 'only half of the piece is drawn; draw the other half', 'lost');
  return [{ kind, prefix, path }];
}

/** The path of a line in its place, or undefined when it was noted why there is none. */
function inPlace(item: Item, left: Tally): string | undefined {
  const path = itemPath(item);
  if (path.ok) return path.value;
  left.note(item.entity, path.error.message, 'lost');
  return undefined;
}

/** Millimetres of a notch that the file gives as a place only: as deep as one is cut. Common practice, no source. */
const NOTCH_DEPTH = 3;

/** A stroke for a place: a notch from the outline inwards, anything else a small cross. */
function placePath(
  { entity, matrix }: Item,
  kind: Part['kind'],
  outlines: readonly Outline[],
  left: Tally,
): string | undefined {
  const point = pointOf(entity, 10);
  if (point === undefined) {
    left.note(entity, 'a number of it cannot be read', 'lost');
    return undefined;
  }
  const [x, y] = moved(matrix, ...point);
  const outline = outlines.find(({ points }) => awayFrom(points, [x, y]) < 1);
  if (kind !== 'notch' || outline === undefined) return `M${x - 2} ${y}L${x + 2} ${y}M${x} ${y - 2}L${x} ${y + 2}`;
  const inwards = directions(outline.points, [x, y]).find(([dx, dy]) => isInside(outline.points, [x + dx, y + dy]));
  const [dx, dy] = inwards ?? [0, 1];
  return `M${x} ${y}L${x + dx * NOTCH_DEPTH} ${y + dy * NOTCH_DEPTH}`;
}

/** Both ways that are square to an outline where it is nearest to a place; at a corner, to the mean of its sides. */
function directions(outline: readonly Point[], place: Point): readonly Point[] {
  const nearest = awayFrom(outline, place) + 0.05;
  let [dx, dy] = [0, 0];
  for (const [index, from] of outline.entries()) {
    const to = outline[(index + 1) % outline.length] ?? from;
    const length = between(from, to);
    if (length === 0 || awayFrom([from, to], place) > nearest) continue;
    dx += (to[0] - from[0]) / length;
    dy += (to[1] - from[1]) / length;
  }
  const length = Math.hypot(dx, dy) || 1;
  return [
    [-dy / length, dx / length],
    [dy / length, -dx / length],
  ];
}

interface Words {
  /** What stands before a colon, in small letters; null for plain words. */
  readonly key: string | null;
  readonly value: string;
  readonly text: string;
  readonly label: Label;
}

function readWords({ entity, matrix }: Item, left: Tally): readonly Words[] {
  const text = plainWords(textOf(entity, 1) ?? '');
  const [, key, value = ''] = /^([\p{L} ]{2,40}):\s*(.*)$/u.exec(text) ?? [];
  if (text === '' || (key !== undefined && value.trim() === '')) {
    left.note(entity, 'it says nothing', 'expected');
    return [];
  }
  const place = pointOf(entity, 10);
  if (place === undefined && key === undefined) {
    left.note(entity, 'a number of it cannot be read', 'lost');
    return [];
  }
  const [x, y] = moved(matrix, ...(place ?? [0, 0]));
  if (key === undefined && Math.max(Math.abs(x), Math.abs(y)) > FURTHEST) {
    left.note(entity, 'it stands further than a kilometre away', 'lost');
    return [];
  }
  const height = (numberOf(entity, 40, 0) ?? 0) * enlargement(matrix);
  const label: Label = { words: text, x, y, height, anchor: 'start' };
  return [{ key: key === undefined ? null : key.trim().toLowerCase(), value: value.trim(), text, label }];
}

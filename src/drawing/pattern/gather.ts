import { ok, type Result, refuse } from '../../base/result.ts';
import { combine, enlargement, type Matrix } from '../matrix.ts';
import { type DxfFile, type Entity, numberOf, textOf } from './entities.ts';
import type { Tally } from './left-out.ts';

/** An entity with the way from the file's numbers to millimetres of the drawing, y downward. */
export interface Item {
  readonly entity: Entity;
  readonly matrix: Matrix;
}

/** What belongs together: a block, which is a piece, or whatever stands in the file outside of blocks (`name` is null). */
export interface Group {
  readonly name: string | null;
  readonly items: readonly Item[];
}

/**
 * Everything that a pattern file draws, blocks where they are put in. A block that is put in nowhere is a piece all the same. `perUnit`: how many
 * millimetres one unit of the file is. Refused as `dxf-large` when blocks in blocks grow beyond measure.
 */
export function gather({ blocks, entities }: DxfFile, perUnit: number, left: Tally): Result<readonly Group[]> {
  const upright: Matrix = [perUnit, 0, 0, -perUnit, 0, 0];
  const used = new Set<string>();
  let count = 0;

  const expand = (inside: readonly Entity[], matrix: Matrix, depth: number): readonly Item[] => {
    const items: Item[] = [];
    for (const entity of inside) {
      count += 1;
      if (count > MOST) return items;
      if (entity.type !== 'INSERT') items.push({ entity, matrix });
      else items.push(...(inserted(entity, matrix, depth)?.items ?? []));
    }
    return items;
  };

  const inserted = (entity: Entity, outer: Matrix, depth: number): Group | undefined => {
    const block = blocks.get(textOf(entity, 2) ?? '');
    const own = insertion(entity, block?.base ?? [0, 0]);
    if (block === undefined || own === undefined || depth >= DEEPEST) {
      const why = block === undefined ? 'the block it puts in is missing' : 'it cannot be put in so';
      left.note(entity, why, 'lost');
      return undefined;
    }
    used.add(block.name);
    return { name: block.name, items: expand(block.entities, combine(outer, own), depth + 1) };
  };

  const groups: Group[] = [];
  const loose: Entity[] = [];
  for (const entity of entities) {
    if (entity.type !== 'INSERT') loose.push(entity);
    else {
      const group = inserted(entity, upright, 0);
      if (group) groups.push(group);
    }
  }
  // A name with a star is a sheet or a hatch of the program that wrote the file.
  for (const { name, entities: inside } of blocks.values())
    if (!used.has(name) && !name.startsWith('*')) groups.push({ name, items: expand(inside, upright, 0) });
  groups.push({ name: null, items: expand(loose, upright, 0) });
  if (count > MOST)
    return refuse('dxf-large', `This file draws more than ${MOST} things; export fewer pieces at once.`);
  return ok(groups.filter(({ items }) => items.length > 0));
}

const MOST = 20_000;
const DEEPEST = 8;

function insertion(entity: Entity, [baseX, baseY]: readonly [number, number]): Matrix | undefined {
  const number = (code: number, otherwise: number): number => numberOf(entity, code, otherwise) ?? Number.NaN;
  const [x, y, across, up, turn] = [number(10, 0), number(20, 0), number(41, 1), number(42, 1), number(50, 0)];
  if (number(70, 1) > 1 || number(71, 1) > 1 || number(230, 1) === -1) return undefined;
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = turn % 360 === 0 ? [1, 0] : [Math.cos(angle), Math.sin(angle)];
  const placed: Matrix = [cos * across, sin * across, -sin * up, cos * up, x, y];
  const whole = combine(placed, [1, 0, 0, 1, -baseX, -baseY]);
  return whole.every(Number.isFinite) && enlargement(whole) > 1e-9 ? whole : undefined;
}

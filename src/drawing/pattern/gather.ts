import { ok, type Result, refuse } from '../../base/result.ts';
import { combine, enlargement, type Matrix } from '../matrix.ts';
import { type Block, type DxfFile, type Entity, numberOf, textOf } from './entities.ts';
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
export function gather({ blocks, entities, stray }: DxfFile, perUnit: number, left: Tally): Result<readonly Group[]> {
  const upright: Matrix = [perUnit, 0, 0, -perUnit, 0, 0];
  const named = new Map(blocks.toReversed().map((block) => [block.name, block]));
  const used = new Set<Block>();
  let count = 0;

  const expand = (inside: readonly Entity[], matrix: Matrix, depth: number): readonly Item[] => {
    const items: Item[] = [];
    for (const entity of inside) {
      count += 1;
      if (count > MOST) return items;
      const seen = fromItsSide(entity, matrix);
      if (seen === undefined) left.note(entity, 'it does not lie flat', 'lost');
      else if (entity.type !== 'INSERT') items.push({ entity, matrix: seen });
      else items.push(...inserted(entity, seen, depth));
    }
    return items;
  };

  const inserted = (entity: Entity, outer: Matrix, depth: number): readonly Item[] => {
    const block = named.get(textOf(entity, 2) ?? '');
    const own = insertion(entity, block?.base ?? [0, 0]);
    if (block === undefined || own === undefined || depth >= DEEPEST) {
      const why = block === undefined ? 'the block it puts in is missing' : 'it cannot be put in so';
      left.note(entity, why, 'lost');
      return [];
    }
    used.add(block);
    return expand(block.entities, combine(outer, own), depth + 1);
  };

  for (const entity of stray) left.note(entity, 'it stands where nothing is drawn', 'lost');
  const groups: Group[] = [];
  const loose: Entity[] = [];
  for (const entity of entities) {
    if (numberOf(entity, 67) === 1) left.note(entity, 'it stands on the sheet beside the pattern', 'expected');
    else if (entity.type !== 'INSERT') loose.push(entity);
    else groups.push({ name: textOf(entity, 2) ?? '', items: expand([entity], upright, 0) });
  }
  for (const block of outermostFirst(blocks)) {
    if (used.has(block)) continue;
    used.add(block);
    // A name with a star is a sheet or a hatch of the program that wrote the file.
    if (!block.name.startsWith('*')) groups.push({ name: block.name, items: expand(block.entities, upright, 0) });
    else
      for (const entity of block.entities) left.note(entity, 'it stands in a block that is put in nowhere', 'expected');
  }
  groups.push({ name: null, items: expand(loose, upright, 0) });
  if (count > MOST)
    return refuse('dxf-large', `This file draws more than ${MOST} things; export fewer pieces at once.`);
  return ok(groups.filter(({ items }) => items.length > 0));
}

const MOST = 20_000;
const DEEPEST = 8;

/** What is put into another block is no piece of its own, as long as that other one is drawn. */
function outermostFirst(blocks: readonly Block[]): readonly Block[] {
  const inserts = blocks.flatMap(({ entities }) => entities.filter(({ type }) => type === 'INSERT'));
  const inner = new Set(inserts.map((entity) => textOf(entity, 2)));
  return [...blocks.filter(({ name }) => !inner.has(name)), ...blocks];
}

/** These have the numbers of the whole file, whichever side they are seen from. */
const OF_THE_FILE: ReadonlySet<string> = new Set(['LINE', 'POINT']);

/** Other entities have those of a plane seen from the side on which they were drawn: from behind, left is right. `undefined` for a slanting one. */
function fromItsSide(entity: Entity, matrix: Matrix): Matrix | undefined {
  if (OF_THE_FILE.has(entity.type)) return matrix;
  const [x, y, z] = [210, 220, 230].map((code) => numberOf(entity, code, code === 230 ? 1 : 0) ?? Number.NaN);
  const isFlat = [x, y].every((each) => Math.abs(each ?? 0) < 1e-6) && Math.abs(Math.abs(z ?? 0) - 1) < 1e-6;
  if (!isFlat) return undefined;
  return z !== undefined && z < 0 ? combine(matrix, [-1, 0, 0, 1, 0, 0]) : matrix;
}

function insertion(entity: Entity, [baseX, baseY]: readonly [number, number]): Matrix | undefined {
  const number = (code: number, otherwise: number): number => numberOf(entity, code, otherwise) ?? Number.NaN;
  const [x, y, across, up, turn] = [number(10, 0), number(20, 0), number(41, 1), number(42, 1), number(50, 0)];
  if (number(70, 1) > 1 || number(71, 1) > 1) return undefined;
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = turn % 360 === 0 ? [1, 0] : [Math.cos(angle), Math.sin(angle)];
  const placed: Matrix = [cos * across, sin * across, -sin * up, cos * up, x, y];
  const whole = combine(placed, [1, 0, 0, 1, -baseX, -baseY]);
  return whole.every(Number.isFinite) && enlargement(whole) > 1e-9 ? whole : undefined;
}

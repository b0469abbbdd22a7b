import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boxOf } from '../../../src/drawing/box.ts';
import { flatten } from '../../../src/drawing/flatten.ts';
import { closed, drawn, pattern } from './drawn.ts';
import { block, dxf, entity, insert, lines, polyline, text } from './dxf.ts';

describe('where a block is put', () => {
  const one = block('A', closed(0, 0, 10, 20), entity('LINE', 4, [10, 0], [20, 5], [11, 2], [21, 5]));
  const width = (...inserts: readonly ReturnType<typeof insert>[]) => {
    const { drawing } = drawn(dxf({ blocks: [one], entities: inserts }));
    return drawing.parts
      .filter(({ kind }) => kind === 'piece')
      .map(({ id, path }) => `${id} ${boxOf(path).width.toFixed(2)}`);
  };

  test('turned, enlarged and put in twice', () => {
    expect(width(insert('A', [50, 90]))).toEqual(['A 20.00']);
    expect(width(insert('A', [41, 2], [42, 3]))).toEqual(['A 20.00']);
    expect(width(insert('A'), entity('INSERT', 0, [2, 'A'], [10, 50], [20, 0]))).toEqual(['A 10.00', 'A-2 10.00']);
  });

  test('anywhere, turned, mirrored and stretched, one in another: each point is where the numbers put it', () => {
    const some = fc.integer({ min: -90, max: 90 });
    const put = fc.record({
      x: some,
      y: some,
      across: fc.constantFrom(-2, -1, 0.5, 1),
      up: fc.constantFrom(-1, 1, 3),
      turn: some,
    });
    type Put = typeof put extends fc.Arbitrary<infer T> ? T : never;
    const pairs = ({ x, y, across, up, turn }: Put) =>
      [
        [10, x],
        [20, y],
        [41, across],
        [42, up],
        [50, turn],
      ] as const;
    // By complex numbers, and no matrix.
    const placed = ({ x, y, across, up, turn }: Put, [px, py]: readonly [number, number]) => {
      const [length, angle] = [
        Math.hypot(across * px, up * py),
        Math.atan2(up * py, across * px) + (turn * Math.PI) / 180,
      ];
      return [x + length * Math.cos(angle), y + length * Math.sin(angle)] as const;
    };
    fc.assert(
      fc.property(put, put, some, some, (inner, outer, x, y) => {
        const one = block('ONE', entity('LINE', 8, [10, x], [20, y], [11, x + 9], [21, y - 4]));
        const two = block('TWO', entity('INSERT', 0, [2, 'ONE'], ...pairs(inner)));
        const file = dxf({ blocks: [one, two], entities: [entity('INSERT', 0, [2, 'TWO'], ...pairs(outer))] });
        const [ends = []] = flatten(pattern(file).pieces[0]?.parts[0]?.path ?? '', 1);
        for (const [index, from] of (
          [
            [x, y],
            [x + 9, y - 4],
          ] as const
        ).entries()) {
          const [toX, toY] = placed(outer, placed(inner, from));
          expect(ends[index]?.[0]).toBeCloseTo(toX, 8);
          expect(ends[index]?.[1]).toBeCloseTo(-toY, 8);
        }
      }),
    );
  });

  test('by its own base point', () => {
    const [head, inside] = [block('A').slice(0, 4), block('A', closed(0, 0, 10, 20)).slice(6)];
    const based = [...head, [10, 4] as const, [20, 0] as const, ...inside];
    const [piece] = pattern(dxf({ blocks: [based], entities: [insert('A')] })).pieces;
    expect(boxOf(piece?.parts[0]?.path ?? '').x).toBe(-4);
  });

  test('a block that nobody puts in is a piece all the same, unless its name has a star', () => {
    expect(width()).toEqual(['A 10.00']);
    const sheet = block('*Model_Space', closed(0, 0, 99, 99));
    const { drawing } = drawn(dxf({ blocks: [one, sheet] }));
    expect(drawing.parts.map(({ id }) => id)).toEqual(['A', 'notch-A-1']);
    expect(pattern(dxf({ blocks: [one, sheet] })).leftOut).toEqual([
      {
        type: 'POLYLINE',
        layer: '1',
        count: 1,
        why: 'it stands in a block that is put in nowhere',
        matters: 'expected',
      },
    ]);
  });

  test('a second section of entities is read, and what stands between sections is told', () => {
    const section = (...inside: ReturnType<typeof entity>[]) =>
      [[0, 'SECTION'], [2, 'ENTITIES'], ...inside.flat(), [0, 'ENDSEC']] as const;
    const { pieces, leftOut } = pattern(
      lines([
        ...section(closed(0, 0, 9, 9)),
        ...closed(20, 0, 9, 9),
        ...section(closed(40, 0, 9, 9)),
        ...[[0, 'SECTION'] as const, [2, 'BLOCKS'] as const, ...closed(60, 0, 9, 9), [0, 'ENDSEC'] as const],
        [0, 'EOF'],
      ]),
    );
    expect(pieces.flatMap(({ parts }) => parts)).toHaveLength(2);
    expect(leftOut).toMatchObject([{ type: 'POLYLINE', count: 2, matters: 'lost' }]);
  });

  test('words without a place or without words are told', () => {
    const far = block('A', text(15, 900_000, 1, 'far'));
    expect(pattern(dxf({ blocks: [far], entities: [closed(0, 0, 9, 9), insert('A', [41, 2])] })).leftOut).toMatchObject(
      [{ type: 'TEXT', why: 'it stands further than a kilometre away', matters: 'lost' }],
    );
    const words = [text(15, 1, 1, ''), text(15, 1, 1, 'Size:'), entity('TEXT', 15, [10, 'here'], [1, 'this side up'])];
    const { pieces, leftOut } = pattern(dxf({ entities: [closed(0, 0, 9, 9), ...words] }));
    expect(pieces.flatMap(({ labels }) => labels)).toEqual([]);
    expect(leftOut.map(({ count, why, matters }) => [count, why, matters])).toEqual([
      [1, 'a number of it cannot be read', 'lost'],
      [2, 'it says nothing', 'expected'],
    ]);
  });

  test('blocks in blocks; one that holds itself ends', () => {
    const outer = block('B', insert('A', [10, 5]), insert('A', [20, 7]));
    expect(drawn(dxf({ blocks: [one, outer], entities: [insert('B')] })).ids.has('B')).toBe(true);
    const names = (file: string) => pattern(file).pieces.map(({ name }) => name);
    expect(names(dxf({ blocks: [one, outer] }))).toEqual(['B']);
    const round = block('C', closed(0, 0, 9, 9), insert('C'));
    expect(names(dxf({ blocks: [round] }))).toEqual(['C']);
    expect(pattern(dxf({ blocks: [round], entities: [insert('C')] })).leftOut[0]?.why).toBe('it cannot be put in so');
  });

  test('mirrored pieces have their arcs the other way round', () => {
    const round = block(
      'R',
      polyline(
        1,
        [
          [0, 0],
          [10, 0, 1],
          [10, 10],
        ],
        1,
      ),
    );
    const at = (...pairs: readonly (readonly [number, number])[]) =>
      drawn(dxf({ blocks: [round], entities: [insert('R', ...pairs)] })).part('R').path;
    expect(at()).toMatch(/A5 5 0 0 0 /);
    expect(at([41, -1])).toMatch(/A5 5 0 0 1 /);
  });

  test('pieces that lie on each other are laid in a row, others stay as they lie', () => {
    const two = [block('A', closed(0, 0, 10, 20)), block('B', closed(5, 5, 10, 20))];
    const places = (...inserts: readonly ReturnType<typeof insert>[]) => {
      const { part } = drawn(dxf({ blocks: two, entities: inserts }));
      const [a, b] = [boxOf(part('A').path), boxOf(part('B').path)];
      return [b.x - a.x, b.y - a.y];
    };
    expect(places(insert('A'), insert('B'))).toEqual([50, 0]);
    expect(places(insert('A'), entity('INSERT', 0, [2, 'B'], [10, 100], [20, 30]))).toEqual([105, -35]);
  });
});

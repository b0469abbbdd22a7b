import { describe, expect, test } from 'vitest';
import { boxOf } from '../../../src/drawing/box.ts';
import { flatten } from '../../../src/drawing/flatten.ts';
import { lengthOf } from '../../../src/drawing/length.ts';
import { moments } from '../../../src/drawing/polygon.ts';
import { closed, drawn, pattern } from './drawn.ts';
import { dxf, entity, text } from './dxf.ts';

describe('a pattern without blocks', () => {
  test('is parted by its outlines; words and lines go to the piece they lie in', () => {
    const { drawing, part } = drawn(
      dxf({
        entities: [
          closed(0, 0, 50, 50),
          closed(100, 0, 50, 50),
          text(1, 10, 10, 'Piece Name: LEFT'),
          text(1, 110, 10, 'Piece Name: RIGHT'),
          entity('LINE', 14, [10, 110], [20, 20], [11, 140], [21, 20]),
          entity('POINT', 4, [10, 125], [20, 0]),
        ],
      }),
    );
    expect(drawing.parts.map(({ id }) => id)).toEqual(['LEFT', 'RIGHT', 'seam-RIGHT-1', 'notch-RIGHT-1']);
    expect(boxOf(part('RIGHT').path).x - boxOf(part('LEFT').path).x).toBe(100);
  });

  test('pieces that touch keep their own lines', () => {
    const lined = (x: number, y: number) => {
      const corners = [
        [x, y],
        [x + 50, y],
        [x + 50, y + 50],
        [x, y + 50],
      ] as const;
      return corners.map(([fromX, fromY], index) => {
        const [toX, toY] = corners[(index + 1) % 4] ?? [x, y];
        return entity('LINE', 1, [10, fromX], [20, fromY], [11, toX], [21, toY]);
      });
    };
    const seam = entity('LINE', 14, [10, 50], [20, 50], [11, 80], [21, 80]);
    const { leftOut, pieces } = pattern(dxf({ entities: [...lined(0, 0), ...lined(50, 50), seam] }));
    expect(leftOut).toEqual([]);
    expect(pieces.map(({ parts }) => parts.map(({ kind }) => kind))).toEqual([['piece'], ['piece', 'seam']]);
  });

  test('pieces without a name are numbered', () =>
    expect(
      drawn(dxf({ entities: [closed(0, 0, 9, 9), closed(20, 0, 9, 9)] })).drawing.parts.map(({ id }) => id),
    ).toEqual(['piece-1', 'piece-2']));

  test('an outline of arcs and lines, drawn in any order and direction, is put together', () => {
    const { part } = drawn(
      dxf({
        entities: [
          entity('LINE', 1, [10, 40], [20, 0], [11, 0], [21, 0]),
          entity('LINE', 1, [10, 40], [20, 20], [11, 0], [21, 20]),
          entity('ARC', 1, [10, 40], [20, 10], [40, 10], [50, 270], [51, 90]),
          entity('ARC', 1, [10, 0], [20, 10], [40, 10], [50, 90], [51, 270]),
        ],
      }),
    );
    expect(part('piece-1').path).toMatch(/Z$/);
    expect(lengthOf(part('piece-1').path)).toBeCloseTo(80 + 20 * Math.PI, 3);
    const [points = []] = flatten(part('piece-1').path, 1e-5);
    expect(Math.abs(moments(points)[0])).toBeCloseTo(40 * 20 + 100 * Math.PI, 2);
  });

  test('what the file rounds away of an outline is no gap', () => {
    const gapped = (gap: number) =>
      pattern(
        dxf({
          entities: [
            entity('LINE', 1, [10, 0], [20, 0], [11, 40], [21, 0]),
            entity('LINE', 1, [10, 40 + gap], [20, 0], [11, 20], [21, 30]),
            entity('LINE', 1, [10, 20], [20, 30], [11, 0], [21, 0]),
          ],
        }),
      ).leftOut.length;
    expect([0, 0.009, 0.02].map(gapped)).toEqual([0, 0, 1]);
  });

  test('an outline with a gap is told, and its lines are kept', () => {
    const { leftOut, pieces } = pattern(
      dxf({
        entities: [
          entity('LINE', 1, [10, 0], [20, 0], [11, 40], [21, 0]),
          entity('LINE', 1, [10, 41], [20, 0], [11, 41], [21, 9]),
        ],
      }),
    );
    expect(leftOut.map(({ type, why }) => `${type}: ${why}`)).toEqual([
      'outline: it is not closed, and drawn as lines without a meaning',
    ]);
    expect(pieces[0]?.parts.map(({ kind }) => kind)).toEqual(['other', 'other']);
  });

  test('light polylines of later releases are read, too', () => {
    const light = entity(
      'LWPOLYLINE',
      1,
      [90, 3],
      [70, 1],
      [10, 0],
      [20, 0],
      [10, 30],
      [20, 0],
      [42, 1],
      [10, 30],
      [20, 40],
    );
    expect(lengthOf(drawn(dxf({ entities: [light] })).part('piece-1').path)).toBeCloseTo(30 + 20 * Math.PI + 50, 3);
  });
});

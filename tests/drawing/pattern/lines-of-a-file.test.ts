import { describe, expect, test } from 'vitest';
import { boxOf } from '../../../src/drawing/box.ts';
import { flatten } from '../../../src/drawing/flatten.ts';
import { closed, drawn, pattern } from './drawn.ts';
import { block, dxf, entity, insert, lines, polyline, text } from './dxf.ts';

describe('lines of a file', () => {
  const single = (...entities: readonly ReturnType<typeof entity>[]) => pattern(dxf({ entities }));

  test('an arc of more than a half keeps to its long side', () => {
    // The tangent of a quarter of 270°.
    const most = drawn(
      dxf({
        entities: [
          polyline(8, [
            [0, 0, Math.tan((270 / 4) * (Math.PI / 180))],
            [10, 0],
          ]),
        ],
      }),
    );
    expect(most.measure('mark-piece-1-1')).toBe(Number(((10 / Math.SQRT2) * 1.5 * Math.PI).toFixed(3)));
  });

  test('half circles keep their length, whatever the last digits of their ends', () => {
    for (const angle of [0.1, 0.7, 1.3, 2.2]) {
      const [x, y] = [Math.cos(angle) * 87.33337, Math.sin(angle) * 87.33337];
      const hole = polyline(
        8,
        [
          [x, y, 1],
          [-x, -y, 1],
        ],
        1,
      );
      const turned = polyline(
        8,
        [
          [-x, y, -1],
          [x, -y, -1],
        ],
        1,
      );
      const from = angle * 57;
      const ring = entity('ARC', 8, [10, x], [20, y], [40, 87.33337], [50, from], [51, from]);
      for (const each of [hole, turned, ring])
        expect(drawn(dxf({ entities: [each] })).measure('mark-piece-1-1')).toBeCloseTo(2 * Math.PI * 87.33337, 2);
    }
  });

  test('a bow is drawn however flat it is, and to its side', () => {
    const bow = (bulge: number) =>
      polyline(8, [
        [0, 0, bulge],
        [900, 300],
        [0, 300],
      ]);
    for (const bulge of [1e-9, 0.0002, 0.0024, 0.0026]) {
      // An arc sweeps four times the angle whose tangent is the bulge, and bulges to the right on its way.
      const angle = 4 * Math.atan(bulge);
      const length = (Math.hypot(900, 300) * angle) / (2 * Math.sin(angle / 2)) + 900;
      const { part, measure } = drawn(dxf({ entities: [bow(bulge)] }));
      expect(measure('mark-piece-1-1')).toBeCloseTo(length, 3);
      const [points = []] = flatten(part('mark-piece-1-1').path, 0.001);
      const deepest = Math.max(...points.map(([x, y]) => (340 - y - (x - 40) / 3) * -Math.cos(Math.atan(1 / 3))));
      expect(deepest).toBeCloseTo((Math.hypot(900, 300) * bulge) / 2, 2);
    }
    expect(single(bow(1e-9)).leftOut).toEqual([]);
  });

  test('points that a curve was fitted to are not on the line', () => {
    const line = polyline(8, [
      [0, 0],
      [5, 90],
      [10, 0],
    ]);
    const framed = line.flatMap((pair) => (pair[0] === 10 && pair[1] === 5 ? [pair, [70, 16] as const] : [pair]));
    expect(drawn(dxf({ entities: [framed] })).measure('mark-piece-1-1')).toBe(10);
  });

  const BEHIND = [230, -1] as const;

  test('what is drawn from behind has left and right changed, but for lines and points', () => {
    const path = (...more: readonly (readonly [number, number])[]) =>
      single(
        entity('ARC', 8, [10, 30], [20, 0], [40, 10], [50, 0], [51, 90], ...more),
        entity('LINE', 8, [10, 1], [20, 2], [11, 9], [21, 2], ...more),
      ).pieces[0]?.parts.map((part) => Number(boxOf(part.path).x.toFixed(6)));
    expect(path()).toEqual([30, 1]);
    expect(path(BEHIND)).toEqual([-40, 1]);
    const put = (...more: readonly (readonly [number, number])[]) =>
      pattern(
        dxf({
          blocks: [block('A', closed(0, 0, 10, 20))],
          entities: [entity('INSERT', 0, [2, 'A'], [10, 100], [20, 0], [50, 90], ...more)],
        }),
      ).pieces.map(({ parts: [part] }) => Number(boxOf(part?.path ?? '').x.toFixed(6)));
    expect([put(), put(BEHIND)]).toEqual([[80], [-100]]);
  });

  test('what does not lie flat, and surfaces in space, are told', () => {
    const slanting = entity('CIRCLE', 8, [10, 0], [20, 0], [40, 9], [220, 0.6], [230, 0.8]);
    const mesh = polyline(8, [
      [0, 0],
      [9, 0],
      [9, 9],
    ]).map((pair) => (pair[0] === 70 ? ([70, 64] as const) : pair));
    const { leftOut } = single(closed(0, 0, 9, 9), slanting, mesh);
    expect(leftOut.map(({ why }) => why)).toEqual(['it does not lie flat', 'it is a surface in space']);
  });

  test('what belongs to no piece is told', () => {
    const sheet = entity('LINE', 8, [67, 1], [10, 0], [20, 0], [11, 9], [21, 0]);
    const words = entity('ATTRIB', 0, [10, 0], [20, 0], [1, 'two of these']);
    const rule = text(2, 1, 1, '# 5');
    const { leftOut, pieces } = single(closed(0, 0, 9, 9), sheet, words, rule);
    expect(leftOut.map(({ type, why, matters }) => `${type} ${matters}: ${why}`)).toEqual([
      'ATTRIB lost: it is of a type that is not read',
      'TEXT expected: turn points of other lines',
      'LINE expected: it stands on the sheet beside the pattern',
    ]);
    expect(pieces.flatMap(({ labels }) => labels)).toEqual([]);
  });

  test('nothing is lost of a section, a block or its end that is written twice or not at all', () => {
    const twice = dxf({
      blocks: [
        block('A', closed(0, 0, 10, 20)).slice(0, -2),
        block('B', closed(0, 0, 30, 20)),
        block('B', closed(0, 0, 50, 20)),
      ],
      entities: [insert('A'), insert('B')],
    }).replace('0\nEOF\n', lines([[0, 'SECTION'], [2, 'ENTITIES'], ...insert('A'), [0, 'ENDSEC'], [0, 'EOF']]));
    expect(drawn(twice).drawing.parts.map(({ id, path }) => `${id} ${boxOf(path).width.toFixed(1)}`)).toEqual([
      'A 10.0',
      'B 30.0',
      'A-2 10.0',
      'B-2 50.0',
    ]);
  });

  test('a block whose base cannot be read is not put somewhere', () => {
    const [type, layer, name, ...rest] = block('A', closed(0, 0, 10, 20));
    if (!type || !layer || !name) throw new Error('a block has a head');
    const based = [type, layer, name, [10, 'here'] as const, ...rest];
    const { leftOut } = pattern(dxf({ blocks: [based], entities: [insert('A'), closed(0, 0, 9, 9)] }));
    expect(leftOut.map(({ why }) => why)).toEqual(['it cannot be put in so']);
  });

  test('words are read with their signs and letters', () => {
    const { pieces } = single(
      closed(0, 0, 99, 99),
      text(1, 1, 1, 'Piece Name: \\U+00C4rmel'),
      text(15, 2, 2, '%%c5 %%p0.5 at 90%%d, %%uonce%%U, 100%%%, %%065'),
    );
    expect(pieces.map(({ name, labels }) => [name, ...labels.map(({ words }) => words)])).toEqual([
      ['Ärmel', 'Ø5 ±0.5 at 90°, once, 100%, A'],
    ]);
  });

  test('remarks are not read, and an empty line at the end is no fault', () => {
    const file = dxf({ entities: [closed(0, 0, 9, 9)] });
    const noted = `999\nan invented pattern\n${file.replace('2\nENTITIES\n', '2\nENTITIES\n999\n0\n')}\n\n`;
    expect(pattern(noted)).toEqual(pattern(file));
  });
});

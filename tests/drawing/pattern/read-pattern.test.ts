import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boxOf } from '../../../src/drawing/box.ts';
import type { Part } from '../../../src/drawing/drawing.ts';
import { flatten } from '../../../src/drawing/flatten.ts';
import { lengthOf } from '../../../src/drawing/length.ts';
import { measureNamed } from '../../../src/drawing/measure-named.ts';
import { notchesOf } from '../../../src/drawing/notches.ts';
import { patternSvg } from '../../../src/drawing/pattern/pattern-svg.ts';
import { type Pattern, readPattern } from '../../../src/drawing/pattern/read-pattern.ts';
import { moments } from '../../../src/drawing/polygon.ts';
import { isToScale, readDrawing } from '../../../src/drawing/read-drawing.ts';
import { block, dxf, entity, insert, lines, PATCH_AND_STRAP, polyline, text, units } from './dxf.ts';

function pattern(file: string, said: 'mm' | 'in' | null = 'mm'): Pattern {
  const read = readPattern(file, said);
  if (!read.ok) throw new Error(read.error.message);
  return read.value;
}

/** The pattern as the drawing that is made of it. */
function drawn(file: string, said: 'mm' | 'in' | null = 'mm') {
  const read = readDrawing(patternSvg(pattern(file, said), 'Strap & patch'), 'a.svg');
  expect(read.findings).toEqual([]);
  expect(isToScale(read)).toBe(true);
  const part = (id: string): Part => {
    const found = read.drawing.parts.find((each) => each.id === id);
    if (!found) throw new Error(`no ${id} among ${[...read.ids].join(' ')}`);
    return found;
  };
  const measure = (words: string): number => {
    const measured = measureNamed(read.drawing, words);
    if (!measured.ok) throw new Error(measured.error.message);
    return Number((measured.value[0] ?? Number.NaN).toFixed(3));
  };
  return { ...read, part, measure };
}

const refused = (file: string, said: 'mm' | 'in' | null = 'mm'): string => {
  const read = readPattern(file, said);
  return read.ok ? 'read' : read.error.rule;
};

const closed = (x: number, y: number, width: number, height: number, layer: string | number = 1) =>
  polyline(
    layer,
    [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ],
    1,
  );

describe('a pattern in blocks', () => {
  const file = dxf(PATCH_AND_STRAP);

  test('is a drawing with a part for each line, of the kind of its layer', () => {
    const { drawing } = drawn(file);
    expect(drawing.title).toBe('Strap & patch');
    expect(drawing.parts.map(({ id, kind }) => `${id} ${kind}`)).toEqual([
      'PT-L piece',
      'notch-PT-L-1 notch',
      'notch-PT-L-2 notch',
      'seam-PT-L-1 seam',
      'grain-PT-L-1 other',
      'hole-PT-L-1 mark',
      'ST piece',
      'mark-ST-1 mark',
    ]);
    expect(drawing.parts[0]?.title).toBe('PT-L; Quantity: 1');
    expect(drawing.labels.map(({ words }) => words)).toEqual(['wrong side <up>', 'PT-L', 'ST']);
  });

  test('measures what was drawn, arcs and all', () => {
    const { part, measure } = drawn(file);
    expect(measure('PT-L width')).toBe(70);
    expect(measure('PT-L d1')).toBe(Number(Math.hypot(70, 70).toFixed(3)));
    expect(lengthOf(part('PT-L').path)).toBeCloseTo(60 + 60 + 70 + 70 + (Math.PI / 2) * 10, 3);
    expect(measure('seam-PT-L-1')).toBe(100);
    expect([measure('ST width'), measure('ST depth')]).toEqual([400, 25]);
    expect(lengthOf(part('ST').path)).toBeCloseTo(850, 3);
    expect(measure('hole-PT-L-1')).toBe(Number((4 * Math.PI).toFixed(3)));
  });

  test('stands upright: what is high in the file is high in the drawing', () => {
    const { part } = drawn(file);
    const outline = boxOf(part('PT-L').path);
    // The round corner is below on the right; the slit notch on the upper edge.
    expect(boxOf(part('notch-PT-L-2').path).y).toBeCloseTo(outline.y, 3);
    expect(part('PT-L').path).toMatch(/A10 10 0 0 0 /);
  });

  test('a notch that is only a place is cut inwards, and its place along the outline is kept', () => {
    const { drawing, part } = drawn(file);
    const [outline, notch] = [boxOf(part('PT-L').path), boxOf(part('notch-PT-L-1').path)];
    expect([notch.x - outline.x, notch.width, notch.height].map((n) => Number(n.toFixed(3)))).toEqual([0, 3, 0]);
    expect(notchesOf(drawing, part('PT-L')).map(({ id }) => id)).toEqual(['notch-PT-L-2', 'notch-PT-L-1']);
  });

  test('a notch that lies within the piece is a cross, and words are as high as they were written', () => {
    const inside = block('A', closed(0, 0, 50, 50), entity('POINT', 4, [10, 25], [20, 25]), text(8, 9, 9, 'face'));
    const { pieces } = pattern(dxf({ blocks: [inside] }), 'in');
    expect(pieces[0]?.parts.map(({ kind, path }) => `${kind} ${boxOf(path).width.toFixed(1)}`)).toEqual([
      'piece 1270.0',
      'notch 4.0',
    ]);
    expect(pieces[0]?.labels.map(({ height }) => height)).toEqual([127]);
  });

  test('in inches is 25.4 times larger, whoever says so', () => {
    const sized = (of: string, said: 'mm' | 'in' | null) => drawn(of, said).measure('ST width');
    const saying = (header: ReturnType<typeof units>) => dxf({ ...PATCH_AND_STRAP, header });
    expect(sized(file, 'in')).toBe(10_160);
    expect(sized(saying(units(1)), null)).toBe(10_160);
    expect(sized(saying(units(4)), null)).toBe(400);
    expect(sized(saying(units(5)), null)).toBe(4_000);
    expect(sized(saying(units(1)), 'mm')).toBe(400);
    const words = (of: string) =>
      dxf({ ...PATCH_AND_STRAP, entities: [...PATCH_AND_STRAP.entities, text(1, 0, 0, of)] });
    expect(sized(words('Units: ENGLISH'), null)).toBe(10_160);
    expect(sized(words('UNITS: METRIC'), null)).toBe(400);
  });

  test('without units nobody guesses', () => {
    expect(refused(file, null)).toBe('units-unknown');
    expect(refused(dxf({ ...PATCH_AND_STRAP, header: units(0) }), null)).toBe('units-unknown');
    const two = { header: units(1), entities: [...PATCH_AND_STRAP.entities, text(1, 0, 0, 'Units: METRIC')] };
    expect(refused(dxf({ ...PATCH_AND_STRAP, ...two }), null)).toBe('units-unknown');
    expect(refused(dxf({ ...PATCH_AND_STRAP, ...two, header: units(4) }), null)).toBe('read');
  });

  test('what is not in the drawing is listed, and whether it matters', () => {
    const more = [
      entity('SPLINE', 8, [10, 1]),
      entity('SPLINE', 8, [10, 2]),
      entity('LINE', 'cut here', [10, 0], [20, 0], [11, 9], [21, 0]),
      entity('LINE', 8, [10, 'NaN'], [20, 0], [11, 9], [21, 0]),
      entity('LINE', 84, [10, 0], [20, 0], [11, 9], [21, 0]),
      insert('nowhere'),
    ];
    expect(pattern(dxf({ ...PATCH_AND_STRAP, entities: [...PATCH_AND_STRAP.entities, ...more] })).leftOut).toEqual([
      { type: 'INSERT', layer: '0', count: 1, why: 'the block it puts in is missing', matters: 'lost' },
      { type: 'LINE', layer: '8', count: 1, why: 'a number of it cannot be read', matters: 'lost' },
      { type: 'SPLINE', layer: '8', count: 2, why: 'it is of a type that is not read', matters: 'lost' },
      {
        type: 'LINE',
        layer: 'cut here',
        count: 1,
        why: 'its layer is not known, so it is drawn as a line without a meaning',
        matters: 'lost',
      },
      { type: 'POINT', layer: '2', count: 2, why: 'turn points of other lines', matters: 'expected' },
      { type: 'LINE', layer: '84', count: 1, why: 'a second copy of layer 1, for checking', matters: 'expected' },
    ]);
  });

  test('a mirror line says that only half is drawn', () => {
    const half = dxf({
      blocks: [block('A', closed(0, 0, 9, 9), entity('LINE', 6, [10, 0], [20, 0], [11, 0], [21, 9]))],
    });
    expect(pattern(half).leftOut.map(({ why }) => why)).toEqual([
      'only half of the piece is drawn; draw the other half',
    ]);
  });
});

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

test('what no drawing can hold as a letter is a mark in words, and left out of names', () => {
  const words = [text(15, 1, 1, 'this \ufffe side \uffff up'), text(1, 1, 1, `Piece Name: ${'a'.repeat(59)}\u{20000}`)];
  const { drawing } = drawn(dxf({ entities: [closed(0, 0, 9, 9), ...words] }));
  expect(drawing.labels[0]?.words).toBe('this \ufffd side \ufffd up');
  expect(drawing.parts[0]?.id).toBe('a'.repeat(59));
});

test('names become ids that can be written, each once', () => {
  const { drawing } = drawn(
    dxf({ blocks: ['A B', 'A-B', '<"&>', 'names', 'éß_1'].map((name, i) => block(name, closed(20 * i, 0, 9, 9))) }),
  );
  expect(drawing.parts.map(({ id }) => id)).toEqual(['A-B', 'A-B-2', 'piece', 'names-2', 'éß_1']);
  expect(drawing.parts[2]?.title).toBe('<"&>');
});

describe('what is no pattern', () => {
  const good = dxf(PATCH_AND_STRAP);
  test.each([
    ['nothing', '', 'dxf-none'],
    ['words', 'Dear reader,\nthis is a letter.\n', 'dxf-none'],
    ['a picture', '\u0089PNG\r\n\u001a\n\0\0\0\rIHDR', 'dxf-binary'],
    ['a binary DXF', 'Binary DXF\r\n\u001a\0', 'dxf-binary'],
    ['one that is cut off in a line', good.slice(0, good.length / 2), 'dxf-cut-off'],
    [
      'one that is cut off between lines',
      lines([[0, 'SECTION'], [2, 'ENTITIES'], ...entity('LINE', 1, [10, 0])]),
      'dxf-cut-off',
    ],
    ['one of 20 million characters', `0\nSECTION\n999\n${'a'.repeat(20_000_000)}\n`, 'dxf-large'],
    ['one that draws nothing', dxf({ entities: [text(1, 0, 0, 'Units: METRIC')] }), 'pattern-empty'],
    ['one of only unreadable things', dxf({ entities: [entity('LINE', 1, [10, '1e999'])] }), 'pattern-empty'],
    ['one with letters for a group', good.replace('\n70\n', '\nseventy\n'), 'dxf-none'],
  ])('%s is refused, with the way out', (_, file, rule) => {
    const read = readPattern(file, 'mm');
    expect(read.ok ? 'read' : read.error.rule).toBe(rule);
    expect(read.ok ? '' : read.error.message).toMatch(/[;] .+\.$/);
  });

  test('a polyline without its end is told, not waited for', () => {
    const endless = [...entity('POLYLINE', 1, [66, 1]), ...entity('VERTEX', 1, [10, 0], [20, 0])];
    expect(pattern(dxf({ entities: [endless, closed(0, 0, 9, 9)] })).leftOut).toMatchObject([
      { type: 'POLYLINE', count: 1, why: 'the end of its points is missing', matters: 'lost' },
    ]);
  });

  test('blocks that put in blocks a billion times are refused in time', () => {
    const start = performance.now();
    const bomb = Array.from({ length: 8 }, (_, i) =>
      block(`L${i}`, ...Array.from({ length: 12 }, () => (i === 0 ? closed(0, 0, 9, 9) : insert(`L${i - 1}`)))),
    );
    expect(refused(dxf({ blocks: bomb, entities: [insert('L7')] }))).toBe('dxf-large');
    expect(refused(dxf({ entities: Array.from({ length: 20_001 }, () => closed(0, 0, 9, 9)) }))).toBe('dxf-large');
    const many = Array.from({ length: 19_000 }, (_, i) =>
      entity('LINE', 1, [10, i], [20, 0], [11, i + 1], [21, i % 7]),
    );
    expect(refused(dxf({ entities: many }))).toBe('dxf-large');
    expect(performance.now() - start).toBeLessThan(15_000);
  });

  test('more than a drawing can hold when it is read again is refused', () => {
    const spread = (count: number) => Array.from({ length: count }, (_, nth) => insert('A', [10, nth * 20]));
    const one = block('A', closed(0, 0, 9, 9));
    expect(refused(dxf({ blocks: [one], entities: spread(1_500) }))).toBe('read');
    expect(refused(dxf({ blocks: [one], entities: spread(1_501) }))).toBe('dxf-large');
    const round = (points: number) => {
      const at = (nth: number) => (nth / points) * 2 * Math.PI;
      return Array.from({ length: points }, (_, nth) => [500 * Math.cos(at(nth)), 500 * Math.sin(at(nth))] as const);
    };
    expect(refused(dxf({ entities: [polyline(1, round(50_001), 1)] }))).toBe('dxf-large');
    const notched = round(400).map(([x, y]) => entity('POINT', 4, [10, x], [20, y]));
    const start = performance.now();
    drawn(dxf({ entities: [polyline(1, round(10_000), 1), ...notched] }));
    expect(performance.now() - start).toBeLessThan(10_000);
  });

  test('whatever a file holds, it is read or refused, and what is read is a drawing without findings', () => {
    const number = fc.oneof(fc.integer({ min: -200, max: 200 }), fc.constantFrom('NaN', '1e400', '', '-0', '1e-7'));
    const layer = fc.constantFrom(0, 1, 2, 4, 8, 14, 15, 'x');
    const thing = fc.oneof(
      fc
        .tuple(layer, number, number, number, number)
        .map(([l, a, b, c, d]) => entity('LINE', l, [10, a], [20, b], [11, c], [21, d])),
      fc.tuple(layer, number, number, number).map(([l, a, b, c]) => entity('CIRCLE', l, [10, a], [20, b], [40, c])),
      fc.tuple(layer, number, number).map(([l, a, b]) => entity('POINT', l, [10, a], [20, b])),
      fc
        .tuple(
          layer,
          fc.array(
            fc.tuple(fc.integer({ min: 0, max: 90 }), fc.integer({ min: 0, max: 90 }), fc.integer({ min: -3, max: 3 })),
            { maxLength: 5 },
          ),
        )
        .map(([l, all]) => polyline(l, all, 1)),
      fc
        .tuple(layer, fc.string({ unit: 'binary', maxLength: 20 }))
        .map(([l, words]) => text(l, 1, 1, words.replace(/[\r\n\0]/g, ' '))),
      fc.constantFrom(
        insert('A'),
        insert('B', [41, 0]),
        entity('VERTEX', 1),
        entity('SEQEND', 1),
        entity('POLYLINE', 1),
      ),
    );
    fc.assert(
      fc.property(fc.array(thing, { maxLength: 12 }), fc.array(thing, { maxLength: 6 }), (entities, inside) => {
        const read = readPattern(dxf({ entities, blocks: [block('A', ...inside)] }), 'mm');
        if (!read.ok) expect(read.error.message).toMatch(/\.$/);
        else expect(readDrawing(patternSvg(read.value, 'a'), 'a.svg').findings).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
});

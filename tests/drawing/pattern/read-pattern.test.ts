import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boxOf } from '../../../src/drawing/box.ts';
import { lengthOf } from '../../../src/drawing/length.ts';
import { notchesOf } from '../../../src/drawing/notches.ts';
import { patternSvg } from '../../../src/drawing/pattern/pattern-svg.ts';
import { readPattern } from '../../../src/drawing/pattern/read-pattern.ts';
import { readDrawing } from '../../../src/drawing/read-drawing.ts';
import { closed, drawn, pattern, refused } from './drawn.ts';
import { block, dxf, entity, insert, lines, PATCH_AND_STRAP, polyline, text, units } from './dxf.ts';

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

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutPiece } from '../../src/drawing/cut-piece.ts';
import { handOf as handOfCut } from '../../src/drawing/mirrored.ts';
import { readDrawing } from '../../src/drawing/read-drawing.ts';
import { svg } from './svg.ts';

/** Of outlines without notches. */
const handOf = (first: string, second: string) => handOfCut({ path: first, places: [] }, { path: second, places: [] });

const path = (data: string, transform = 'scale(1)'): string =>
  readDrawing(svg(`<path transform="${transform}" d="${data}"/>`), 'a.svg').drawing.parts[0]?.path ?? '';

/** Pieces with a left and a right hand. */
const HANDED = [
  'M0 0H70V70H60A60 60 0 0 1 0 10Z M15 5h4v4h-4z',
  'M0 0L100 10L90 80L20 60Z',
  'M0 0C40 -60 100 -10 120 0L90 70Q40 30 0 50Z',
  'M0 0H30V10H10V60H0Z',
];
/** Pieces that are their own mirror. */
const SYMMETRIC = ['M0 0H120V120H0Z', 'M50 0A50 50 0 0 1 -50 0A50 50 0 0 1 50 0Z', 'M0 0L60 10L60 90L0 100Z'];

const place = fc.record({ angle: fc.integer({ min: -179, max: 180 }), x: fc.integer({ min: -500, max: 500 }) });
const moved = ({ angle, x }: { readonly angle: number; readonly x: number }): string =>
  `translate(${x} 7) rotate(${angle})`;

test('a piece turned over is mirrored, wherever and however it lies', () => {
  fc.assert(
    fc.property(fc.constantFrom(...HANDED, ...SYMMETRIC), place, (data, at) => {
      expect(handOf(path(data), path(data, `${moved(at)} scale(-1 1)`))).toBe('mirrored');
      expect(handOf(path(data), path(data, `${moved(at)} scale(1 -1)`))).toBe('mirrored');
    }),
    { numRuns: 60 },
  );
});

test('a piece only turned round is the same, unless it is its own mirror', () => {
  fc.assert(
    fc.property(fc.constantFrom(...HANDED), place, (data, at) => {
      expect(handOf(path(data), path(data, moved(at)))).toBe('same');
    }),
    { numRuns: 40 },
  );
  for (const data of SYMMETRIC) expect(handOf(path(data), path(data, 'rotate(20)'))).toBe('mirrored');
});

test('points within a side, and where the outline begins, make no difference', () => {
  expect(handOf('M0 0L30 0L30 10L10 10L10 60L0 60Z', 'M100 30L100 60L90 60L90 10L70 10L70 0L85 0L100 0Z')).toBe(
    'mirrored',
  );
});

test('another size or shape is different; half a millimetre is not', () => {
  const piece = HANDED[1] ?? '';
  expect(handOf(path(piece), path(piece, 'scale(-1.02 1)'))).toBe('different');
  expect(handOf(path(piece), path(piece, 'scale(-1.002 1)'))).toBe('mirrored');
  expect(handOf(path('M0 0H100V50H0Z'), path('M0 0H100V40L90 50H0Z'))).toBe('different');
  expect(handOf(path('M0 0H100V50H0Z'), path('M0 0H50V20H50.2V0H100V50H0Z'))).toBe('different');
  expect(handOf(path(piece), path('M0 0H9'))).toBe('different');
});

test('where a round outline begins makes no difference', () => {
  for (const [rx, ry] of [
    [500, 400],
    [300, 100],
    [80, 40],
  ] as const) {
    const whole = path(`M${rx} 0A${rx} ${ry} 0 0 1 ${-rx} 0A${rx} ${ry} 0 0 1 ${rx} 0Z`);
    for (const t of [0.13, 0.75, 1.6, 2.9]) {
      const [x, y] = [rx * Math.cos(t), ry * Math.sin(t)];
      const other = `M${x} ${y}A${rx} ${ry} 0 0 1 ${-x} ${-y}A${rx} ${ry} 0 0 1 ${x} ${y}Z`;
      expect(handOf(whole, path(other, `rotate(${100 * t})`))).toBe('mirrored');
    }
  }
});

describe('holes, notches and marks', () => {
  const hand = (...pieces: readonly [string, string]) => {
    const { drawing, findings } = readDrawing(svg(pieces.join('')), 'a.svg');
    expect(findings).toEqual([]);
    const [a, b] = drawing.parts.filter(({ kind }) => kind === 'piece').map((part) => cutPiece(drawing, part));
    if (!a || !b) throw new Error('two pieces are held against each other');
    return handOfCut(a, b);
  };
  const at = (transform: string, inside: string): string => `<g transform="${transform}">${inside}</g>`;
  const notch = (id: string, x: number): string => `<path id="notch-${id}" class="notch" d="M${x - 3} 0l3 3l3 -3"/>`;
  const square = (id: string, ...more: readonly string[]): string =>
    `<rect id="${id}" class="piece" width="80" height="80"/>${more.join('')}`;

  test('of a square make a left and a right hand of it', () => {
    const left = square('P-L', notch('P-L-1', 20));
    expect(hand(left, at('translate(300) rotate(70) scale(-1 1)', square('P-R', notch('P-R-1', 20))))).toBe('mirrored');
    expect(hand(left, at('translate(300) rotate(70)', square('P-R', notch('P-R-1', 20))))).toBe('same');
    expect(hand(left, at('translate(300)', square('P-R', notch('P-R-1', 30))))).toBe('different');
    expect(hand(left, at('translate(300)', square('P-R')))).toBe('different');
    expect(hand(left, at('translate(300)', square('P-R', notch('P-R-top-1', 60))))).toBe('mirrored');
  });

  test('of a round piece, too, though it could lie any way', () => {
    const round = (id: string, ...places: readonly number[]) =>
      `<circle id="${id}" class="piece" r="50"/>${places.map((angle, i) => at(`rotate(${angle}) translate(0 -50)`, notch(`${id}-${i}`, 0))).join('')}`;
    expect(hand(round('a', 0, 40, 100), at('translate(200) rotate(33)', round('b', 0, 60, 100)))).toBe('mirrored');
    expect(hand(round('a', 0, 40, 100), at('translate(200) rotate(33)', round('b', 0, 40, 100)))).toBe('same');
    expect(hand(round('a', 0, 40, 100), round('b', 0, 70, 100))).toBe('different');
  });

  test('a hole counts with its shape', () => {
    const holed = (id: string, hole: string) => `<path id="${id}" class="piece" d="M0 0H80V80H0Z${hole}"/>`;
    expect(hand(holed('a', 'M10 10h8v4h-8z'), holed('b', 'M62 10h8v4h-8z'))).toBe('mirrored');
    expect(hand(holed('a', 'M10 10h8v4h-8z'), holed('b', 'M10 10h8v4h-8z'))).toBe('same');
    expect(hand(holed('a', 'M10 10h8v4h-8z'), holed('b', 'M64 9h4v6h-4z'))).toBe('different');
  });

  test('marks count in a group with one piece, and in no other', () => {
    const mark = (x: number) => `<path class="mark" d="M${x} 8h4M${x + 2} 6v4"/>`;
    const grouped = (id: string, x: number) =>
      `<g id="${id}"><rect class="piece" width="80" height="80"/>${mark(x)}</g>`;
    expect(hand(grouped('a', 10), grouped('b', 66))).toBe('mirrored');
    expect(hand(grouped('a', 10), grouped('b', 10))).toBe('same');
    expect(hand(`<g id="layer">${square('a')}`, `${square('b')}${mark(9)}</g>`)).toBe('mirrored');
  });

  test('a notch belongs to the piece with the longest name in its id', () => {
    const { drawing } = readDrawing(
      svg(square('F') + square('F-L', notch('F-L-1', 20), notch('F-L-top-1', 60))),
      'a.svg',
    );
    const pieces = drawing.parts.filter(({ kind }) => kind === 'piece');
    expect(pieces.map((piece) => cutPiece(drawing, piece).places)).toEqual([
      [],
      [
        [20, 0],
        [60, 0],
      ],
    ]);
  });
});

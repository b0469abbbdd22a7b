import fc from 'fast-check';
import { expect, test } from 'vitest';
import { handOf } from '../../src/drawing/mirrored.ts';
import { readDrawing } from '../../src/drawing/read-drawing.ts';
import { svg } from './svg.ts';

const path = (data: string, transform = 'scale(1)'): string =>
  readDrawing(svg(`<path transform="${transform}" d="${data}"/>`), 'a.svg').drawing.parts[0]?.path ?? '';

/** Pieces with a left and a right hand. */
const HANDED = [
  'M0 0H70V70H60A60 60 0 0 1 0 10Z M5 5h1v1z',
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
    fc.property(fc.constantFrom(...HANDED.slice(1)), place, (data, at) => {
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

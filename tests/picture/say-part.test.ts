import { describe, expect, test } from 'vitest';
import type { Drawing, Part } from '../../src/drawing/drawing.ts';
import { aboutParts } from '../../src/picture/about-part.ts';
import { sayPart } from '../../src/picture/say-part.ts';
import { readSample } from './read-sample.ts';

const said = (drawing: Drawing, broughtOut: readonly string[], sewn: readonly string[] = []): readonly string[] =>
  aboutParts(drawing, { broughtOut, sewn }, 'to scale').map((about) => sayPart(about));

test.each([
  [
    'lining',
    'line-D2',
    'line-D2, Pencil line for D2, 72 from the front edge of B: 1070 mm long, on B, 72 mm from “Front edge of B”.',
  ],
  ['lining', 'D1', 'D1: 945 by 35 mm, on A.'],
  ['lining', 'A', 'A, front panel, cut size: 1220 by 552 mm.'],
  ['lining', 'notch-AB-left', 'notch-AB-left.'],
  // Drawn ten times larger: nobody is told how large that is.
  ['lining', 'join-detail', 'join-detail: 4 parts.'],
  ['lining', 'A-B', 'A-B, Join A to B, 12 from both edges: 1220 mm long, on B and A, 12 mm from “Aft edge of A”.'],
  [
    'cutting',
    'mark-D3',
    'mark-D3, Line for D3, 432 from the front edge of B: 1130 mm long, on B, 72 mm from “Aft edge of B”.',
  ],
  ['cutting', 'mark-E', 'mark-E, Lamp mark, 252 from the front edge of B: 40 by 40 mm, on B.'],
  ['cutting', 'corner-dots', 'corner-dots: 12 parts.'],
  ['hood', 'pins', 'pins: 4 parts, on WS and CP.'],
  ['hood', 'row-1', 'row-1, Row 1, 6 outside the opening line, 2632: 2631.9 mm long, on WS and CP.'],
  ['cushion', 'P1-piping', 'P1-piping, Piping ring R1 sewn to P1: 3120 mm long, on P1.'],
])('%s: %s', (drawing, name, words) => expect(said(readSample(drawing), [name])).toEqual([words]));

const part = (id: string, kind: Part['kind'], path: string, title: string | null = null): Part => ({
  id,
  groups: [],
  kind,
  title,
  path,
});
const panel = part('A', 'piece', 'M0 0 L200 0 L200 100 L0 100 Z');
const made = (...parts: readonly Part[]): Drawing => ({
  title: null,
  box: { x: 0, y: 0, width: 200, height: 100 },
  parts: [panel, ...parts],
  labels: [],
});

describe('the nearest edge', () => {
  test.each([
    ['M20 10 L180 10', 'upper', 10],
    ['M180 85 L20 85', 'lower', 15],
    ['M30 20 L30 80', 'left', 30],
    ['M180.04 80 L180.04 20', 'right', 20],
  ])('%s lies nearest to the %s edge', (path, side, distance) => {
    expect(said(made(part('L', 'mark', path)), ['L'])[0]).toContain(`on A, ${distance} mm from its ${side} edge.`);
  });

  test('may be the one that a line lies on, whichever that is', () => {
    for (const path of ['M20 0 L180 0', 'M20 100 L180 100', 'M0 20 L0 80', 'M200 20 L200 80'])
      expect(said(made(part('L', 'seam', path)), ['L'])[0]).toMatch(/: \d+ mm long, on A, 0 mm from its \w+ edge\.$/);
  });

  test('that has a name is called by it', () => {
    const front = part('e', 'edge', 'M0 0 L200 0', 'Front edge of A, 200');
    expect(said(made(front, part('L', 'mark', 'M20 10 L180 10')), ['L'])).toEqual([
      'L: 160 mm long, on A, 10 mm from “Front edge of A”.',
    ]);
  });

  test('that is drawn as one comes before a nearer side that is not', () => {
    const front = part('e', 'edge', 'M0 0 L200 0', 'Front edge of A, 200');
    expect(said(made(front, part('L', 'mark', 'M20 90 L180 90')), ['L'])[0]).toContain('90 mm from “Front edge of A”');
  });

  test('is never that of another piece', () => {
    const other = part('e', 'edge', 'M0 9 L200 9', 'Front edge of B');
    expect(said(made(other, part('L', 'mark', 'M20 10 L180 10')), ['L'])[0]).toContain('10 mm from its upper edge');
  });

  test('is not told of a line that runs askew, bends, or lies on no piece', () => {
    for (const path of ['M20 10 L180 20', 'M20 10 L100 10 L100 50', 'M20 -10 L180 -10'])
      expect(said(made(part('L', 'seam', path)), ['L'])[0]).not.toContain('edge');
  });

  test('is one edge where its outline goes on in the same direction, and closes by itself', () => {
    for (const path of [
      'M0 0 L60 0 L120 0 L200 0 L200 100 L0 100 Z',
      'M0 100 L0 0 L200 0 L200 100',
      'M200 0 L200 100 L0 100 L0 0',
      'M200 100 L0 100 L0 0 L200 0',
    ])
      expect(said({ ...made(), parts: [{ ...panel, path }, part('L', 'mark', 'M20 10 L180 10')] }, ['L'])).toEqual([
        'L: 160 mm long, on A, 10 mm from its upper edge.',
      ]);
  });

  test('is one that runs beside the line, not one further along', () => {
    const step = { ...panel, path: 'M0 0 L100 0 L100 30 L200 30 L200 100 L0 100 Z' };
    const drawing = { ...made(part('L', 'mark', 'M10 40 L90 40')), parts: [step, part('L', 'mark', 'M10 40 L90 40')] };
    expect(said(drawing, ['L'])).toEqual(['L: 80 mm long, on A, 40 mm from its upper edge.']);
  });
});

test('a seam that is sewn is said to be, a piece is not', () => {
  const seam = part('S', 'seam', 'M20 50 L180 50');
  expect(said(made(seam), ['S', 'A'], ['S', 'A'])).toEqual([
    'S: 160 mm long, on A, 50 mm from its upper edge, sewn already.',
    'A: 200 by 100 mm.',
  ]);
});

test('without a scale there is no length to tell, and what a drawing does not have is not told of', () => {
  const about = aboutParts(
    made(part('L', 'mark', 'M20 10 L180 10')),
    { broughtOut: ['L', 'gone'], sewn: [] },
    'not to scale',
  );
  expect(about.map((one) => sayPart(one))).toEqual(['L: on A.']);
});

test('each clause can be said in another language', () => {
  const [about] = aboutParts(made(part('L', 'mark', 'M20 10 L180 10')), { broughtOut: ['L'], sewn: [] }, 'to scale');
  if (!about) throw new Error('nothing to say');
  const say = sayPart(
    about,
    ({ words, values }) => `${words.replace(/\{\w+\}/g, '_')} ${Object.values(values).join('/')}`,
  );
  expect(say).toBe('_ L/: _ mm long 160, on _ A, _ mm from its upper edge 10.');
});

test('a seam traced in thousands of stretches, on a piece that was, too, keeps nobody waiting', () => {
  const round = (radius: number): string => {
    const at = (nth: number): string =>
      `${500 + radius * Math.cos((nth / 8_000) * 2 * Math.PI)} ${500 + radius * Math.sin((nth / 8_000) * 2 * Math.PI)}`;
    return `M${Array.from({ length: 8_000 }, (_, nth) => at(nth)).join('L')}Z`;
  };
  const drawing = made(part('B', 'piece', round(400)), part('S', 'seam', round(300)));
  const start = performance.now();
  expect(said(drawing, ['S'])).toEqual(['S: 1885 mm long, on B.']);
  expect(performance.now() - start).toBeLessThan(5_000);
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { curvesOf, type Point } from '../../src/drawing/curve.ts';
import { flatten } from '../../src/drawing/flatten.ts';
import { lengthOf } from '../../src/drawing/length.ts';
import { readDrawing } from '../../src/drawing/read-drawing.ts';
import { svg } from '../drawing/svg.ts';

/** Length of what an element draws, read as a drawing is. */
function drawn(element: string): number {
  const { drawing, findings } = readDrawing(svg(element), 'a.svg');
  expect(findings).toEqual([]);
  return drawing.parts.reduce((total, { path }) => total + lengthOf(path), 0);
}

const path = (data: string): number => drawn(`<path d="${data}"/>`);

function near(value: number, expected: number, within = 1e-9): void {
  expect(Math.abs(value - expected), `${value} is not ${expected}`).toBeLessThanOrEqual(within);
}

/**
 * Quarter of the perimeter of an ellipse, a E(k) with k² = 1 - b²/a², by the arithmetic-geometric mean: Abramowitz and Stegun, Handbook
 * of Mathematical Functions, 17.6.3 and 17.6.4 (from memory).
 */
function quarterEllipse(a: number, b: number): number {
  let [x, y, c] = [1, b / a, Math.sqrt(1 - (b / a) ** 2)];
  let sum = (c * c) / 2;
  for (let power = 1; power < 4_096; power *= 2) {
    c = (x - y) / 2;
    [x, y] = [(x + y) / 2, Math.sqrt(x * y)];
    sum += power * c * c;
  }
  return a * (Math.PI / (2 * x)) * (1 - sum);
}

/** Integral over 0 to 1 by the double exponential rule of Takahasi and Mori (1974), tanh-sinh; from memory. */
function tanhSinh(f: (t: number) => number): number {
  const step = 1 / 64;
  let sum = 0;
  for (let k = -64 * 4; k <= 64 * 4; k++) {
    const inner = (Math.PI / 2) * Math.sinh(k * step);
    const weight = ((Math.PI / 2) * Math.cosh(k * step)) / Math.cosh(inner) ** 2;
    sum += f((1 + Math.tanh(inner)) / 2) * weight;
  }
  return (sum * step) / 2;
}

/** Arc length of a cubic curve from its definition: the integral of the speed of the Bernstein polynomials, split where it may stand still. */
function cubicLength(points: readonly Point[], breaks: readonly number[] = []): number {
  const speed = (t: number): number => {
    const steps = [0, 1, 2].map((i) => [0, 1].map((axis) => (points[i + 1]?.[axis] ?? 0) - (points[i]?.[axis] ?? 0)));
    const weights = [(1 - t) ** 2, 2 * t * (1 - t), t * t];
    return 3 * Math.hypot(...[0, 1].map((axis) => weights.reduce((sum, w, i) => sum + w * (steps[i]?.[axis] ?? 0), 0)));
  };
  const ends = [0, ...breaks, 1];
  return ends.slice(1).reduce((total, to, i) => {
    const from = ends[i] ?? 0;
    return total + (to - from) * tanhSinh((t) => speed(from + t * (to - from)));
  }, 0);
}

/** The limit of inscribed polygons, by Romberg's extrapolation of ever finer ones: the definition of length, without a derivative. */
function polygonLimit(data: string): number {
  const place = ([curve]: ReturnType<typeof curvesOf>) => curve?.at ?? (() => [0, 0] as Point);
  const at = place(curvesOf(readDrawing(svg(`<path d="${data}"/>`), 'a.svg').drawing.parts[0]?.path ?? ''));
  let row: readonly number[] = [];
  for (let pieces = 4; pieces <= 2_048; pieces *= 2) {
    let length = 0;
    for (let i = 0; i < pieces; i++) {
      const [a, b] = [at(i / pieces), at((i + 1) / pieces)];
      length += Math.hypot(b[0] - a[0], b[1] - a[1]);
    }
    const next = [length];
    for (const [k, before] of row.entries()) next.push((next[k] ?? 0) + ((next[k] ?? 0) - before) / (4 ** (k + 1) - 1));
    row = next;
  }
  return row.at(-1) ?? 0;
}

describe('circles: 2 π r (Euclid, Elements XII.2, and Archimedes)', () => {
  test('as a circle, as half circles and as a rounded rectangle', () => {
    near(drawn('<circle cx="0" cy="720" r="65"/>'), 2 * Math.PI * 65);
    near(path('M65 720A65 65 0 0 1 -65 720A65 65 0 0 1 65 720'), 2 * Math.PI * 65);
    near(path('M0.1 0.2A.35 .35 0 1 0 .8 .2'), Math.PI * 0.35);
    near(drawn('<rect x="225" y="140" width="1050" height="290" rx="50"/>'), 2 * (950 + 190) + 2 * Math.PI * 50);
  });

  test('after any turn, shift, mirror and enlargement', () => {
    for (const transform of ['rotate(33) translate(0.1 7)', 'scale(-1 1) rotate(-71)', 'rotate(90) translate(3.3 4.7)'])
      near(drawn(`<g transform="${transform}"><path d="M65 720A65 65 0 0 1 -65 720"/></g>`), Math.PI * 65);
    // Turned so, the radius and half the way between the ends differ in their last place.
    const half = 'M95.8 0A95.8 95.8 0 0 1 -95.8 0';
    near(drawn(`<path transform="rotate(95.5) translate(767.75)" d="${half}"/>`), Math.PI * 95.8);
    near(drawn('<circle transform="scale(2.5)" cx="3" cy="4" r="26"/>'), 2 * Math.PI * 65);
  });
});

describe('ellipses: a complete elliptic integral of the second kind', () => {
  test('a quarter, wherever and however it lies', () => {
    near(path('M100 0A100 40 0 0 1 0 40'), quarterEllipse(100, 40));
    near(path('M1000 0A1000 1 0 0 1 0 1'), quarterEllipse(1_000, 1));
    near(drawn('<path transform="rotate(17) translate(5 6)" d="M100 0A100 40 0 0 1 0 40"/>'), quarterEllipse(100, 40));
    near(drawn('<path transform="scale(2.5 1)" d="M40 0A40 40 0 0 1 0 40"/>'), quarterEllipse(100, 40));
    near(drawn('<ellipse cx="5" cy="6" rx="40" ry="100"/>'), 4 * quarterEllipse(100, 40));
  });

  test('the integral itself: E(0) = π/2, and E(sin 45°) = 1.3506438810 (the same handbook, table 17.1, from memory)', () => {
    near(quarterEllipse(1, 1), Math.PI / 2, 1e-15);
    near(quarterEllipse(1, Math.SQRT1_2), 1.350643881, 1e-9);
  });
});

/**
 * SVG 2, appendix B.2.2 and B.2.3: an arc is x = rx cos θ, y = ry sin θ, turned and moved, its flags whether θ runs over more than a half and upward.
 * Made from its angles, its ends and flags must lead back to the very same curve; the other way round is what the program reckons.
 */
test('an arc of any radii, turn, part, flags and transform is the image of its part of a circle', () => {
  const size = fc.double({ min: 1, max: 500, noNaN: true });
  const degrees = fc.double({ min: -360, max: 360, noNaN: true });
  const arc = fc.record({
    rx: size,
    ry: size,
    turn: degrees,
    from: degrees,
    swept: fc.double({ min: 3, max: 357, noNaN: true }),
  });
  const matrix = fc
    .tuple(...Array.from({ length: 6 }, () => fc.double({ min: -3, max: 3, noNaN: true })))
    .filter(([a = 0, b = 0, c = 0, d = 0]) => Math.abs(a * d - b * c) > 0.05);
  fc.assert(
    fc.property(
      arc,
      fc.boolean(),
      matrix,
      ({ rx, ry, turn, from, swept }, isUpward, [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0]) => {
        const angle = (turn * Math.PI) / 180;
        const moved = ([x, y]: Point): Point => [a * x + c * y + e, b * x + d * y + f];
        const turned = ([x, y]: Point): Point => [
          7 + x * Math.cos(angle) - y * Math.sin(angle),
          9 + x * Math.sin(angle) + y * Math.cos(angle),
        ];
        const theta = (t: number): number => ((from + (isUpward ? 1 : -1) * swept * t) * Math.PI) / 180;
        const place = (t: number): Point => turned([rx * Math.cos(theta(t)), ry * Math.sin(theta(t))]);
        const flags = `${swept > 180 ? 1 : 0} ${isUpward ? 1 : 0}`;
        // Within a hair of half a turn the last digit decides which way the arc goes.
        fc.pre(Math.abs(swept - 180) > 1);
        const data = `M${place(0).join(' ')}A${rx} ${ry} ${turn} ${flags} ${place(1).join(' ')}`;
        const element = `<path transform="matrix(${[a, b, c, d, e, f].join(' ')})" d="${data}"/>`;
        const { drawing, findings } = readDrawing(svg(element), 'a.svg');
        expect(findings).toEqual([]);
        const [run = []] = flatten(drawing.parts[0]?.path ?? '', 0.001);
        for (const t of [0, 0.2, 0.5, 0.9, 1]) near(distanceTo(run, moved(place(t))), 0, 0.0011);
        const speed = (t: number): number => {
          const [x, y] = [-rx * Math.sin(theta(t)), ry * Math.cos(theta(t))];
          const [across, down] = [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)];
          return Math.hypot(a * across + c * down, b * across + d * down) * ((swept * Math.PI) / 180);
        };
        // In parts: a flat ellipse all but stands still at its ends.
        const parts = Array.from({ length: 16 }, (_, i) => tanhSinh((t) => speed((i + t) / 16)) / 16);
        const length = parts.reduce((sum, part) => sum + part, 0);
        near(drawn(element), length, 1e-8 * Math.max(1, length));
      },
    ),
    { numRuns: 60 },
  );
});

describe('cubic curves: another rule for the same integral', () => {
  const cubic = (a: Point, b: Point, c: Point, d: Point) => [a, b, c, d] as const;
  test.each([
    { name: 'an armhole', points: cubic([0, 0], [20, 180], [90, 230], [210, 240]), turns: false },
    { name: 'an S', points: cubic([0, 0], [1_000, 0], [-900, 10], [100, 10]), turns: true },
    { name: 'a cusp', points: cubic([0, 0], [100, 100], [0, 100], [100, 0]), turns: true },
    { name: 'a loop', points: cubic([0, 0], [300, 100], [-200, 100], [100, 0]), turns: false },
    { name: 'there and back on one line', points: cubic([0, 0], [200, 0], [-100, 0], [100, 0]), turns: true },
    { name: 'handles in the ends', points: cubic([5, 5], [5, 5], [105, 35], [105, 35]), turns: false },
    {
      name: 'far from where the numbers begin',
      points: cubic([9e5, 9e5], [9e5, 900_180], [900_090, 900_230], [900_210, 900_240]),
      turns: false,
    },
  ])('$name', ({ points, turns }) => {
    const [a, ...rest] = points.map((point) => point.join(' '));
    // Where a curve stands still, or nearly, the rule must begin anew: at the roots of its speed across.
    const breaks = turns ? lineTurns(points.map(([x]) => x)) : [];
    near(path(`M${a}C${rest.join(' ')}`), cubicLength(points, breaks));
  });

  test('the rule that checks is right itself: the parabola y = x² from 0 to 1, √5/2 + asinh(2)/4', () => {
    near(cubicLength(cubic([0, 0], [1 / 3, 0], [2 / 3, 1 / 3], [1, 1])), Math.sqrt(5) / 2 + Math.asinh(2) / 4, 1e-13);
  });
});

/** Where a cubic with these four numbers turns round: the roots of its derivative. */
function lineTurns([a = 0, b = 0, c = 0, d = 0]: readonly number[]): readonly number[] {
  const [two, one, none] = [d - 3 * c + 3 * b - a, 2 * (c - 2 * b + a), b - a];
  const root = Math.sqrt(one * one - 4 * two * none);
  return [(-one - root) / (2 * two), (-one + root) / (2 * two)].sort((x, y) => x - y);
}

/** Scalable Vector Graphics (SVG) 1.1 (Second Edition), W3C Recommendation 16 August 2011, chapter 8; the path data read in copies of it. */
describe('the examples of the chapter on paths', () => {
  test('8.3.4, triangle01', () => near(path('M 100 100 L 300 100 L 200 300 z'), 200 + 2 * Math.hypot(100, 200)));

  test('8.3.6, cubic01: a smooth curve goes on with the handle mirrored', () => {
    const first = cubicLength([
      [100, 200],
      [100, 100],
      [250, 100],
      [250, 200],
    ]);
    const second = cubicLength([
      [250, 200],
      [250, 300],
      [400, 300],
      [400, 200],
    ]);
    near(path('M100,200 C100,100 250,100 250,200 S400,300 400,200'), first + second);
  });

  test('8.3.7, quad01: two equal parabolas, closed form', () => {
    // x = 400 t, y = 500 t (t - 1): the integral of √(400² + (500 (2 t - 1))²).
    const ratio = 500 / 400;
    const one = 400 * ((Math.sqrt(1 + ratio * ratio) + Math.asinh(ratio) / ratio) / 2);
    near(path('M200,300 Q400,50 600,300 T1000,300'), 2 * one);
  });

  test('8.3.8, arcs01: three quarters and one quarter of a circle', () => {
    near(path('M300,200 h-150 a150,150 0 1,0 150,-150 z'), 300 + 1.5 * Math.PI * 150);
    near(path('M275,175 v-150 a150,150 0 0,0 -150,150 z'), 300 + 0.5 * Math.PI * 150);
  });

  test('8.3.8, arcs01: an arc too small for its ends becomes half an ellipse; the others are the limit of polygons', () => {
    const chord = Math.hypot(50, 25);
    near(path('M650,325 a25,25 -30 0,1 50,-25'), (Math.PI * chord) / 2);
    for (const radius of [50, 75, 100]) {
      const data = `M650,325 a25,${radius} -30 0,1 50,-25`;
      near(path(data), polygonLimit(data));
    }
    const whole =
      'M600,350 l 50,-25 a25,25 -30 0,1 50,-25 l 50,-25 a25,50 -30 0,1 50,-25 l 50,-25 a25,75 -30 0,1 50,-25 l 50,-25 a25,100 -30 0,1 50,-25 l 50,-25';
    const arcs = [25, 50, 75, 100].map((radius) => polygonLimit(`M650,325 a25,${radius} -30 0,1 50,-25`));
    near(
      path(whole),
      arcs.reduce((total, length) => total + length, 5 * chord),
      1e-8,
    );
  });

  test.each([
    ['0,0', 1],
    ['0,1', 1],
    ['1,0', 3],
    ['1,1', 3],
  ])('8.3.8, arcs02: with the flags %s the arc is %i quarter(s) of one of two ellipses', (flags, quarters) => {
    near(path(`M 125,75 a100,50 0 ${flags} 100,50`), quarters * quarterEllipse(100, 50));
  });

  test('8.3.8, arcs02: sweep 1 goes round the ellipse about 125,125, sweep 0 round the one about 225,75', () => {
    const middle = (flags: string): Point | undefined =>
      curvesOf(
        readDrawing(svg(`<path d="M 125,75 a100,50 0 ${flags} 100,50"/>`), 'a').drawing.parts[0]?.path ?? '',
      )[0]?.at(0.5);
    for (const [flags, x, y, side] of [
      ['0,1', 125, 125, [1, -1]],
      ['1,1', 225, 75, [1, -1]],
      ['0,0', 225, 75, [-1, 1]],
      ['1,0', 125, 125, [-1, 1]],
    ] as const) {
      const [atX = 0, atY = 0] = middle(flags) ?? [];
      near(atX, x + side[0] * 100 * Math.SQRT1_2);
      near(atY, y + side[1] * 50 * Math.SQRT1_2);
    }
  });
});

test('a path goes on after it was closed, from where that began', () => {
  expect(flatten('M1 1L9 1L9 9ZL5 5', 1)).toEqual([
    [
      [1, 1],
      [9, 1],
      [9, 9],
      [1, 1],
    ],
    [
      [1, 1],
      [5, 5],
    ],
  ]);
});

describe('a line through points, no further from the curve than asked', () => {
  test.each(['M0 0C20 180 90 230 210 240', 'M100 0A100 40 0 0 1 0 40', 'M0 0Q50 100 100 0L200 0'])('%s', (data) => {
    for (const within of [10, 0.5, 0.01]) {
      const [points = []] = flatten(data, within);
      const away = curvesOf(data).flatMap(({ at }) =>
        Array.from({ length: 1_000 }, (_, i) => distanceTo(points, at(i / 999))),
      );
      expect(Math.max(...away)).toBeLessThanOrEqual(within);
      expect(points.length).toBeLessThan(40 + 30 / Math.sqrt(within));
    }
  });
});

function distanceTo(points: readonly Point[], [x, y]: Point): number {
  return Math.min(
    ...points.slice(1).map(([bx, by], i) => {
      const [ax = 0, ay = 0] = points[i] ?? [];
      const [dx, dy] = [bx - ax, by - ay];
      const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
      return Math.hypot(x - ax - t * dx, y - ay - t * dy);
    }),
  );
}

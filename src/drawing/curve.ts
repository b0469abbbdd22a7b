import { type SVGCommand, SVGPathData } from 'svg-pathdata';
import { ellipticArc } from './elliptic-arc.ts';

/** `[x, y]` in millimetres, y downward. */
export type Point = readonly [number, number];

/** One stretch of a path, from 0 to 1. */
export interface Curve {
  readonly is: 'line' | 'bend';
  readonly at: (t: number) => Point;
  /** How x and y change with t. */
  readonly slope: (t: number) => Point;
  /** No part of it bends more: an upper bound for the length of the second derivative. */
  readonly bend: number;
}

/** Curves that follow each other without a gap; `closed` when the path itself closes them. */
export interface Run {
  readonly curves: readonly Curve[];
  readonly closed: boolean;
  readonly start: Point;
}

/** The runs of a part's `path`, in order, as it was read. A stretch of no length is left out; a lone point is a run without curves. */
export function runsOf(path: string): readonly Run[] {
  const runs: { curves: Curve[]; closed: boolean; start: Point }[] = [];
  let at: Point = [0, 0];
  const begin = (start: Point): void => {
    at = start;
    runs.push({ curves: [], closed: false, start });
  };
  for (const command of SVGPathData.parse(path)) {
    const run = runs.at(-1);
    if (command.type === SVGPathData.MOVE_TO) begin([command.x, command.y]);
    else if (run !== undefined) {
      // After a closed run a path may go on from where that began.
      if (run.closed) begin(run.start);
      const into = runs.at(-1) ?? run;
      const to: Point = command.type === SVGPathData.CLOSE_PATH ? into.start : endOf(command, at);
      const curve = curveOf(command, at, to);
      if (curve !== undefined) into.curves.push(curve);
      if (command.type === SVGPathData.CLOSE_PATH) into.closed = true;
      at = to;
    }
  }
  return runs;
}

/** All stretches of a path. */
export const curvesOf = (path: string): readonly Curve[] => runsOf(path).flatMap(({ curves }) => curves);

const line = (from: Point, to: Point): Curve => {
  const across: Point = [to[0] - from[0], to[1] - from[1]];
  // Both ends are met exactly.
  const at = (t: number): Point => (t === 1 ? to : [from[0] + across[0] * t, from[1] + across[1] * t]);
  return { is: 'line', at, slope: () => across, bend: 0 };
};

export const between = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

const endOf = (command: SVGCommand, at: Point): Point =>
  'x' in command && 'y' in command ? [command.x, command.y] : at;

function curveOf(command: SVGCommand, from: Point, to: Point): Curve | undefined {
  if (command.type === SVGPathData.CURVE_TO)
    return bezier([from, [command.x1, command.y1], [command.x2, command.y2], to]);
  if (command.type === SVGPathData.QUAD_TO) {
    // A curve with one handle is one with two, each two thirds of the way to it.
    const handle: Point = [command.x1, command.y1];
    const third = (end: Point): Point => [(end[0] + handle[0] * 2) / 3, (end[1] + handle[1] * 2) / 3];
    return bezier([from, third(from), third(to), to]);
  }
  if (between(from, to) === 0) return undefined;
  if (command.type !== SVGPathData.ARC) return line(from, to);
  const { rX, rY, xRot, lArcFlag, sweepFlag } = command;
  return ellipticArc(from, to, { rx: rX, ry: rY, turn: xRot, large: lArcFlag === 1, sweep: sweepFlag === 1 });
}

function bezier(points: readonly [Point, Point, Point, Point]): Curve | undefined {
  const [a, b, c, d] = points;
  if (between(a, b) === 0 && between(b, c) === 0 && between(c, d) === 0) return undefined;
  const each = (of: (axis: 0 | 1) => number): Point => [of(0), of(1)];
  return {
    is: 'bend',
    at: (t) => {
      if (t === 1) return d;
      const s = 1 - t;
      return each((i) => s * s * s * a[i] + 3 * s * s * t * b[i] + 3 * s * t * t * c[i] + t * t * t * d[i]);
    },
    slope: (t) => {
      const s = 1 - t;
      return each((i) => 3 * (s * s * (b[i] - a[i]) + 2 * s * t * (c[i] - b[i]) + t * t * (d[i] - c[i])));
    },
    bend: 6 * Math.max(secondStep(a, b, c), secondStep(b, c, d)),
  };
}

const secondStep = (a: Point, b: Point, c: Point): number => Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]);

import type { Curve, Point } from './curve.ts';

export interface ArcShape {
  readonly rx: number;
  readonly ry: number;
  /** Degrees by which the ellipse is turned. */
  readonly turn: number;
  readonly large: boolean;
  readonly sweep: boolean;
}

/**
 * The arc of an ellipse from one point to another, by SVG 2, appendix B.2 (conversion from endpoint to center parameterization, and
 * the correction of radii that are too small). Radii of 0 are a straight line before they get here.
 */
export function ellipticArc(from: Point, to: Point, { rx: givenX, ry: givenY, turn, large, sweep }: ArcShape): Curve {
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [halfX, halfY] = [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2];
  const [px, py] = [cos * halfX + sin * halfY, cos * halfY - sin * halfX];
  const reach = (px / givenX) ** 2 + (py / givenY) ** 2;
  // A half circle has its centre on the line between its ends. Rounding in the last place must not move it: the root of such
  // a rest would be a hundred million times larger.
  const isHalf = Math.abs(reach - 1) < 1e-12;
  const grown = reach > 1 || isHalf ? Math.sqrt(reach) : 1;
  const [rx, ry] = [givenX * grown, givenY * grown];
  const rest = reach >= 1 || isHalf ? 0 : Math.sqrt((1 - reach) / reach);
  const side = large === sweep ? -rest : rest;
  const [cx, cy] = [(side * rx * py) / ry, (-side * ry * px) / rx];
  const middleX = cos * cx - sin * cy + (from[0] + to[0]) / 2;
  const middleY = sin * cx + cos * cy + (from[1] + to[1]) / 2;
  const first = Math.atan2((py - cy) / ry, (px - cx) / rx);
  const last = Math.atan2((-py - cy) / ry, (-px - cx) / rx);
  const full = 2 * Math.PI;
  const swept = isHalf || reach > 1 ? (sweep ? Math.PI : -Math.PI) : sweptBetween(first, last, sweep, full);
  return {
    is: 'bend',
    at: (t) => {
      if (t === 0) return from;
      if (t === 1) return to;
      const [x, y] = [rx * Math.cos(first + swept * t), ry * Math.sin(first + swept * t)];
      return [middleX + cos * x - sin * y, middleY + sin * x + cos * y];
    },
    slope: (t) => {
      const [x, y] = [-rx * Math.sin(first + swept * t) * swept, ry * Math.cos(first + swept * t) * swept];
      return [cos * x - sin * y, sin * x + cos * y];
    },
    bend: Math.max(rx, ry) * swept * swept,
  };
}

function sweptBetween(first: number, last: number, sweep: boolean, full: number): number {
  const turned = last - first;
  if (sweep) return turned < 0 ? turned + full : turned;
  return turned > 0 ? turned - full : turned;
}

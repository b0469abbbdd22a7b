import { between, type Point } from './curve.ts';

/** Distance of a place from the closed line through some points. */
export function awayFrom(points: readonly Point[], point: Point): number {
  let best = Number.POSITIVE_INFINITY;
  for (const [index, from] of points.entries()) {
    const to = points[(index + 1) % points.length] ?? from;
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const square = dx * dx + dy * dy;
    const t = square === 0 ? 0 : ((point[0] - from[0]) * dx + (point[1] - from[1]) * dy) / square;
    const on = Math.max(0, Math.min(1, t));
    best = Math.min(best, between([from[0] + on * dx, from[1] + on * dy], point));
  }
  return best;
}

/** Whether a place lies inside the closed line through some points. */
export function isInside(points: readonly Point[], [x, y]: Point): boolean {
  let inside = false;
  for (const [index, [ax, ay]] of points.entries()) {
    const [bx = ax, by = ay] = points[(index + 1) % points.length] ?? [];
    if (ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) inside = !inside;
  }
  return inside;
}

/** Signed area and its middle, by Green's theorem over the sides of a polygon. */
export function moments(points: readonly Point[]): readonly [area: number, x: number, y: number] {
  let [area, x, y] = [0, 0, 0];
  // Relative to the first point: far from where the numbers begin nothing is lost.
  const [from = [0, 0] as Point] = points;
  for (const [index, point] of points.entries()) {
    const next = points[(index + 1) % points.length] ?? point;
    const [ax, ay, bx, by] = [point[0] - from[0], point[1] - from[1], next[0] - from[0], next[1] - from[1]];
    const part = (ax * by - bx * ay) / 2;
    area += part;
    x += (part * (ax + bx)) / 3;
    y += (part * (ay + by)) / 3;
  }
  return area === 0 ? [0, 0, 0] : [area, from[0] + x / area, from[1] + y / area];
}

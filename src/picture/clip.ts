/** A straight line from one place to another: x, y, x, y. */
export type Segment = readonly [number, number, number, number];

/** The part of a line inside the field from 0, 0 to `width`, `height` (Liang and Barsky's way); `null` when nothing of it is, or a number is none. */
export function clip([x0, y0, x1, y1]: Segment, width: number, height: number): Segment | null {
  const [dx, dy] = [x1 - x0, y1 - y0];
  let [from, to] = [0, 1];
  const sides = [
    [-dx, x0],
    [dx, width - x0],
    [-dy, y0],
    [dy, height - y0],
  ] as const;
  for (const [outward, room] of sides) {
    if (!Number.isFinite(outward) || !Number.isFinite(room)) return null;
    if (outward === 0) {
      if (room < 0) return null;
      continue;
    }
    const at = room / outward;
    if (outward < 0) from = Math.max(from, at);
    else to = Math.min(to, at);
    if (from > to) return null;
  }
  // A line of huge numbers loses the small ones in rounding, and must not come out far outside for that.
  const inside = (at: number, most: number): number => Math.min(Math.max(at, 0), most);
  return [
    inside(x0 + from * dx, width),
    inside(y0 + from * dy, height),
    inside(x0 + to * dx, width),
    inside(y0 + to * dy, height),
  ];
}

/** Reads a number of a shape; what cannot be read is noted and answered with `undefined`. */
export type NumberOf = (name: string) => number | undefined;

/**
 * The path data of a basic shape, as SVG 2 section 10 gives it: from the same start, in the same direction. Round shapes are four
 * quarter arcs, whose centres are well determined. `undefined` when a number it needs cannot be read or it has no size.
 */
export function shapePath(name: 'rect' | 'line' | 'circle' | 'ellipse', of: NumberOf): string | undefined {
  if (name === 'line') {
    const [x1, y1, x2, y2] = all(['x1', 'y1', 'x2', 'y2'], of) ?? [];
    return y2 === undefined ? undefined : `M${x1} ${y1}L${x2} ${y2}`;
  }
  if (name === 'rect') return rectangle(of);
  const radii = name === 'circle' ? ['r', 'r'] : ['rx', 'ry'];
  const [cx, cy, rx, ry] = all(['cx', 'cy', ...radii], of) ?? [];
  if (cx === undefined || cy === undefined || !rx || !ry || rx < 0 || ry < 0) return undefined;
  const to = (x: number, y: number): string => `A${rx} ${ry} 0 0 1 ${x} ${y}`;
  return `M${cx + rx} ${cy}${to(cx, cy + ry)}${to(cx - rx, cy)}${to(cx, cy - ry)}${to(cx + rx, cy)}Z`;
}

/** The path of the points of a polyline or polygon; `undefined` with fewer than two, or half a point over. */
export function pointsPath(points: readonly number[], end: '' | 'Z'): string | undefined {
  if (points.length < 4 || points.length % 2 !== 0) return undefined;
  const pairs = Array.from(
    { length: points.length / 2 },
    (_, index) => `${points[index * 2]} ${points[index * 2 + 1]}`,
  );
  return `M${pairs.join('L')}${end}`;
}

function rectangle(of: NumberOf): string | undefined {
  const [x, y, width, height, roundX, roundY] = all(['x', 'y', 'width', 'height', 'rx', 'ry'], of) ?? [];
  if (x === undefined || y === undefined || roundX === undefined || roundY === undefined) return undefined;
  if (!width || !height || width < 0 || height < 0) return undefined;
  // One radius stands for both; neither reaches over the middle of its side.
  const rx = Math.min(roundX || roundY, width / 2);
  const ry = Math.min(roundY || roundX, height / 2);
  const [right, bottom] = [x + width, y + height];
  if (rx <= 0 || ry <= 0) return `M${x} ${y}L${right} ${y}L${right} ${bottom}L${x} ${bottom}Z`;
  const round = (toX: number, toY: number): string => `A${rx} ${ry} 0 0 1 ${toX} ${toY}`;
  return [
    `M${x + rx} ${y}L${right - rx} ${y}${round(right, y + ry)}L${right} ${bottom - ry}${round(right - rx, bottom)}`,
    `L${x + rx} ${bottom}${round(x, bottom - ry)}L${x} ${y + ry}${round(x + rx, y)}Z`,
  ].join('');
}

function all(names: readonly string[], of: NumberOf): readonly number[] | undefined {
  const numbers = names.map(of);
  return numbers.every((number) => number !== undefined) ? numbers : undefined;
}

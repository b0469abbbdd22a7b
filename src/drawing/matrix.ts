import { readNumbers } from './numbers.ts';

/** `[a, b, c, d, e, f]` of SVG: x becomes a·x + c·y + e, and y becomes b·x + d·y + f. */
export type Matrix = readonly [number, number, number, number, number, number];

export const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0];

/** What `inner` does first and `outer` after it. */
export const combine = (outer: Matrix, inner: Matrix): Matrix => {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
};

export const moved = ([a, b, c, d, e, f]: Matrix, x: number, y: number): readonly [number, number] => [
  a * x + c * y + e,
  b * x + d * y + f,
];

/** How many times larger lengths become, on the average of all directions. */
export const enlargement = ([a, b, c, d]: Matrix): number => Math.sqrt(Math.abs(a * d - b * c));

/** Reads `translate(10 20) rotate(90)` and so on; `undefined` where it cannot be read or flattens everything to a line. */
export function readTransform(text: string): Matrix | undefined {
  let whole = IDENTITY;
  let rest = text.trim();
  while (rest !== '') {
    const found = /^(\w+)\s*\(([^()]*)\)\s*,?\s*/.exec(rest);
    const numbers = found?.[2] === undefined ? undefined : readNumbers(found[2]);
    const one = found?.[1] === undefined || numbers === undefined ? undefined : single(found[1], numbers);
    if (found === null || one === undefined) return undefined;
    whole = combine(whole, one);
    rest = rest.slice(found[0].length);
  }
  return enlargement(whole) > 1e-9 && whole.every((value) => Math.abs(value) < 1e9) ? whole : undefined;
}

function single(name: string, numbers: readonly number[]): Matrix | undefined {
  const [a = 0, b, c, d, e, f] = numbers;
  const count = numbers.length;
  if (name === 'matrix' && count === 6) return [a, b ?? 0, c ?? 0, d ?? 0, e ?? 0, f ?? 0];
  if (name === 'translate' && (count === 1 || count === 2)) return [1, 0, 0, 1, a, b ?? 0];
  if (name === 'scale' && (count === 1 || count === 2)) return [a, 0, 0, b ?? a, 0, 0];
  if (name === 'rotate' && (count === 1 || count === 3)) return turned(a, b ?? 0, c ?? 0);
  if (name === 'skewX' && count === 1) return [1, 0, Math.tan(radians(a)), 1, 0, 0];
  if (name === 'skewY' && count === 1) return [1, Math.tan(radians(a)), 0, 1, 0, 0];
  return undefined;
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** About a point. Quarter turns are exact, so that a rectangle turned on its side keeps its numbers. */
function turned(degrees: number, x: number, y: number): Matrix {
  const quarter = degrees % 90 === 0 ? (((degrees / 90) % 4) + 4) % 4 : null;
  const cos = quarter === null ? Math.cos(radians(degrees)) : ([1, 0, -1, 0][quarter] ?? 1);
  const sin = quarter === null ? Math.sin(radians(degrees)) : ([0, 1, 0, -1][quarter] ?? 0);
  return [cos, sin, -sin, cos, x - x * cos + y * sin, y - x * sin - y * cos];
}

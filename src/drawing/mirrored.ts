import type { Point } from './curve.ts';
import { flatten } from './flatten.ts';
import { awayFrom, moments } from './polygon.ts';

/** Outlines nearer than this to each other are the same to whoever cuts them. */
const WITHIN = 0.5;

/** A piece as it is cut: its outline with the holes in it, and the places of its notches and marks. */
export interface Cut {
  readonly path: string;
  readonly places: readonly Point[];
}

/**
 * What two pieces are to each other, wherever and however they are turned on the drawing: `mirrored` when one is the other turned over
 * (a piece that is its own mirror is that, too), `same` when one only has to be turned round, else `different`.
 */
export function handOf(first: Cut, second: Cut): 'mirrored' | 'same' | 'different' {
  const [a, b] = [shapeOf(first), shapeOf(second)];
  if (a === undefined || b === undefined) return 'different';
  if (fits(moved(a, turnedOver), b)) return 'mirrored';
  return fits(a, b) ? 'same' : 'different';
}

/** Points are about the middle of the area that the outline encloses. */
interface Shape {
  readonly outline: readonly Point[];
  /** The outline again, in points so near each other that the furthest of them is the furthest place. */
  readonly fine: readonly Point[];
  readonly holes: readonly (readonly Point[])[];
  /** Of notches and marks, and the middles of holes. */
  readonly places: readonly Point[];
}

/** `undefined` for what encloses nothing. */
function shapeOf({ path, places }: Cut): Shape | undefined {
  const runs = flatten(path, WITHIN / 10);
  const areas = runs.map((run) => Math.abs(moments(run)[0]));
  const largest = areas.indexOf(Math.max(...areas));
  const [outline, fine] = [runs[largest], flatten(path, WITHIN / 1000)[largest]];
  if (outline === undefined || fine === undefined || (areas[largest] ?? 0) < 1e-6) return undefined;
  const holes = runs.filter((_, index) => index !== largest && (areas[index] ?? 0) > 1e-6);
  const middles = holes.map((hole): Point => middleOf(hole));
  const [x, y] = middleOf(outline);
  return moved({ outline, fine, holes, places: [...places, ...middles] }, (point) => [point[0] - x, point[1] - y]);
}

function middleOf(points: readonly Point[]): Point {
  const [, x, y] = moments(points);
  return [x, y];
}

function moved({ outline, fine, holes, places }: Shape, move: (point: Point) => Point): Shape {
  return {
    outline: outline.map(move),
    fine: fine.map(move),
    holes: holes.map((hole) => hole.map(move)),
    places: places.map(move),
  };
}

const turnedOver = ([x, y]: Point): Point => [-x, y];

const turnedBy = (angle: number): ((point: Point) => Point) => {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return ([x, y]) => [x * cos - y * sin, x * sin + y * cos];
};

const fits = (a: Shape, b: Shape): boolean =>
  a.holes.length === b.holes.length &&
  a.places.length === b.places.length &&
  turnsTo(a, b).some((turn) => {
    const { outline, holes, places } = moved({ ...a, fine: [] }, turnedBy(turn));
    return (
      isAlong([outline], [b.outline]) &&
      isAlong(holes, b.holes) &&
      isAmong(places, b.places) &&
      isAmong(b.places, places)
    );
  });

/**
 * The angles by which one shape may have to be turned about its middle to lie on the other: those that bring its furthest place, or its
 * furthest notch, to where the other has one as far away.
 */
function turnsTo(a: Shape, b: Shape): readonly number[] {
  const peaks = b.fine.filter((point, index) => {
    const beside = [b.fine.at(index - 1) ?? point, b.fine[(index + 1) % b.fine.length] ?? point];
    // Half way to the next point: over a straight side that may be as far from the middle itself.
    return beside.every(([x, y]) => reach(point) >= reach([(point[0] + x) / 2, (point[1] + y) / 2]));
  });
  // A round piece has peaks all round it; any of them will do.
  const step = Math.ceil(peaks.length / MOST_TURNS);
  const few = peaks.filter((_, index) => index % step === 0);
  return [...turnsOnto(furthest(a.fine), few), ...turnsOnto(furthest(a.places), b.places)];
}

const MOST_TURNS = 64;

const turnsOnto = (point: Point, others: readonly Point[]): readonly number[] =>
  others
    .filter((other) => Math.abs(reach(other) - reach(point)) <= WITHIN)
    .map((other) => angleOf(other) - angleOf(point));

const furthest = (points: readonly Point[]): Point =>
  points.reduce((best, point) => (reach(point) > reach(best) ? point : best), [0, 0]);
const reach = (point: Point): number => Math.hypot(...point);
const angleOf = ([x, y]: Point): number => Math.atan2(y, x);

/** Whether closed lines lie on closed lines, and those on them. */
function isAlong(some: readonly (readonly Point[])[], others: readonly (readonly Point[])[]): boolean {
  const liesOn = (from: typeof some, to: typeof some): boolean =>
    from.flat().every((point) => to.some((line) => awayFrom(line, point) <= WITHIN));
  return liesOn(some, others) && liesOn(others, some);
}

const isAmong = (places: readonly Point[], others: readonly Point[]): boolean =>
  places.every(([x, y]) => others.some((other) => Math.hypot(other[0] - x, other[1] - y) <= WITHIN));

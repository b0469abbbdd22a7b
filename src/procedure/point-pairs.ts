import { likeness, type Pair, type Pairs, pairs } from './pairs.ts';
import type { Point, Procedure, Step } from './procedure.ts';

/** Two texts' steps and points side by side. */
export interface SideBySide {
  readonly steps: Pairs<Step>;
  /** The points of two steps that stand for each other, without those that came from or went to another step. */
  readonly within: (steps: Pair<Step>) => Pairs<Point>;
  /** Points that are asked in another step than before, by the newer point. */
  readonly moved: ReadonlyMap<Point, PointPair>;
}

/** A point in two texts, with the step it is asked in. */
export interface PointPair {
  readonly before: PlacedPoint;
  readonly after: PlacedPoint;
}

interface PlacedPoint {
  readonly step: Step;
  readonly point: Point;
}

/**
 * Steps are paired by their ids and then by likeness, and the points within them so. What is left over anywhere, a step that is new or
 * gone included, is paired once more: so a point is still the same one when its step was split, or joined with another.
 */
export function sideBySide(before: Procedure, after: Procedure): SideBySide {
  const steps = pairs(before.steps, after.steps, (a, b) =>
    Math.max(likeness(a.title, b.title), shared(a.points, b.points)),
  );
  const within = new Map(steps.both.map((pair) => [pair.after, pairs(pair.before.points, pair.after.points, alike)]));
  const placed = (step: Step, points: readonly Point[]): readonly PlacedPoint[] =>
    points.map((point) => ({ step, point }));
  const gone = [
    ...steps.both.flatMap((pair) => placed(pair.before, within.get(pair.after)?.removed ?? [])),
    ...steps.removed.flatMap((step) => placed(step, step.points)),
  ];
  const come = after.steps.flatMap((step) => placed(step, within.get(step)?.added ?? step.points));
  const moved = pairs(gone.map(once()), come.map(once()), (a, b) => alike(a.at.point, b.at.point)).both.map(
    (pair): PointPair => ({ before: pair.before.at, after: pair.after.at }),
  );
  const elsewhere = new Set(moved.flatMap((pair) => [pair.before.point, pair.after.point]));
  return {
    steps,
    moved: new Map(moved.map((pair) => [pair.after.point, pair])),
    within: ({ after: step }) => {
      const { both, removed, added } = within.get(step) ?? { both: [], removed: [], added: [] };
      const stays = (point: Point): boolean => !elsewhere.has(point);
      return { both, removed: removed.filter(stays), added: added.filter(stays) };
    },
  };
}

/** The points that stand for each other in two texts, wherever they stand. */
export function pointPairs(before: Procedure, after: Procedure): readonly PointPair[] {
  const { steps, within, moved } = sideBySide(before, after);
  const inPlace = steps.both.flatMap((pair) =>
    within(pair).both.map((points) => ({
      before: { step: pair.before, point: points.before },
      after: { step: pair.after, point: points.after },
    })),
  );
  return [...inPlace, ...moved.values()];
}

const alike = (a: Point, b: Point): number => (a.kind === b.kind ? likeness(a.text, b.text) : 0);

/** The share of points that two steps have in common. */
function shared(a: readonly Point[], b: readonly Point[]): number {
  const texts = new Set(a.map(({ text }) => text));
  const most = Math.max(a.length, b.length);
  return most === 0 ? 0 : b.filter(({ text }) => texts.has(text)).length / most;
}

/** An id is one point's within a step only: among those of several steps, the second of a name is told apart by its number. */
function once(): (at: PlacedPoint) => { readonly id: string; readonly at: PlacedPoint } {
  const seen = new Map<string, number>();
  return (at) => {
    const { kind, id } = at.point;
    const nth = (seen.get(id) ?? 0) + 1;
    seen.set(id, nth);
    return { id: `${id} ${kind} ${nth}`, at };
  };
}

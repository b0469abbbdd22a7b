import { assertNever } from '../base/assert-never.ts';
import type { Caution, Choice, Point, PointKind, Procedure, Step, StepFacts } from './procedure.ts';

/** How the program read a procedure, for other programs. What does not apply to a point is `null`. */
export interface Outline {
  readonly procedure: string;
  readonly title: string;
  readonly steps: readonly OutlineStep[];
}

interface OutlineStep {
  readonly number: number;
  readonly id: string;
  readonly title: string;
  readonly line: number;
  readonly facts: StepFacts;
  readonly cautions: readonly Caution[];
  readonly points: readonly OutlinePoint[];
}

/** `low`, `high` and `nominal` are decimal strings in `unit`, as written; `places` counts the blanks of a reading. */
interface OutlinePoint {
  readonly id: string;
  readonly kind: PointKind;
  readonly text: string;
  readonly unit: string | null;
  readonly places: number | null;
  readonly low: string | null;
  readonly high: string | null;
  readonly nominal: string | null;
  /** Lengths of the drawing that are measured, as written. */
  readonly measures: readonly string[] | null;
  readonly options: Choice['options'] | null;
  readonly line: number;
}

export function outline({ id, title, steps }: Procedure): Outline {
  return { procedure: id, title, steps: steps.map(outlineStep) };
}

function outlineStep({ number, id, title, line, facts, cautions, points }: Step): OutlineStep {
  return { number, id, title, line, facts, cautions, points: points.map(outlinePoint) };
}

function outlinePoint(point: Point): OutlinePoint {
  const { id, kind, text, line } = point;
  return { id, kind, text, ...NOTHING, ...measured(point), line };
}

const NOTHING = { unit: null, places: null, low: null, high: null, nominal: null, measures: null, options: null };

function measured(point: Point): Partial<OutlinePoint> {
  switch (point.kind) {
    case 'tick':
    case 'written':
    case 'hold point':
      return {};
    case 'choice':
      return { options: point.options };
    case 'reading':
    case 'count':
    case 'timed':
    case 'computed': {
      const { unit, limit } = point;
      const places = 'places' in point ? point.places : null;
      const measures = 'measures' in point ? (point.measures ?? null) : null;
      const { low = null, high = null, nominal = null } = limit ?? {};
      return { unit, places, low, high, nominal, measures };
    }
    default:
      return assertNever(point);
  }
}

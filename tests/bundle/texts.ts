import type { PointId, ProcedureId, StepId } from '../../src/base/brand.ts';
import type { Limit } from '../../src/measure/limit.ts';
import { readLimit } from '../../src/measure/limit.ts';
import type { UnitId } from '../../src/measure/unit.ts';
import type { Formula } from '../../src/procedure/formula.ts';
import type { Caution, Point, Procedure, Step } from '../../src/procedure/procedure.ts';

/** Procedures for stories, built from few words: what a point is called is its id, too. */
export function text(steps: readonly Step[], rest: Partial<Procedure> = {}): Procedure {
  return {
    id: 'LIN-2207' as ProcedureId,
    title: 'Cabin-top lining',
    author: null,
    sets: 2,
    work: 'set by set',
    readCautions: 'once a bundle',
    kit: [],
    intro: '',
    ...rest,
    steps: steps.map((step, index) => ({ ...step, number: index + 1 })),
  };
}

interface StepWords {
  readonly scope?: 'bundle' | 'set';
  readonly backTo?: string;
  readonly cautions?: readonly Caution['word'][];
  readonly needsSkill?: string;
}

export const step = (
  id: string,
  points: readonly Point[],
  { scope = 'set', backTo, cautions = [], needsSkill }: StepWords = {},
): Step => ({
  number: 0,
  id: id as StepId,
  title: id,
  line: 1,
  facts: {
    scope,
    allowedMinutes: null,
    seams: null,
    ifOut: backTo === undefined ? null : { text: `back to ${backTo}`, backTo: backTo as StepId },
    needsSkill: needsSkill ?? null,
    cannotBeUndone: false,
  },
  cautions: cautions.map((word) => ({ word, text: `${word} of ${id}`, line: 1 })),
  pictures: [],
  prose: '',
  points,
});

const base = (id: string) => ({ id: id as PointId, text: id, line: 1 });

function limit(words: string | undefined, unit: UnitId): Limit | null {
  if (words === undefined) return null;
  const read = readLimit(words, unit);
  if (!read.ok) throw new Error(read.error.message);
  return read.value;
}

export const tick = (id: string): Point => ({ ...base(id), kind: 'tick' });
export const holdPoint = (id: string): Point => ({ ...base(id), kind: 'hold point' });
export const written = (id: string): Point => ({ ...base(id), kind: 'written' });

/** Acceptable options begin with a star. */
export const choice = (id: string, ...options: readonly string[]): Point => ({
  ...base(id),
  kind: 'choice',
  options: options.map((option) => ({ text: option.replace('*', ''), acceptable: option.startsWith('*') })),
});

/** Its name in formulas is its id. */
export const reading = (id: string, words?: string, { unit = 'mm' as UnitId, places = 1 } = {}): Point => ({
  ...base(id),
  kind: 'reading',
  name: id,
  unit,
  places,
  limit: limit(words, unit),
});

export const count = (id: string, words?: string): Point => ({
  ...base(id),
  kind: 'count',
  name: id,
  unit: 'pcs',
  places: 1,
  limit: limit(words, 'pcs'),
});

export const timed = (id: string, words?: string, unit: 's' | 'min' | 'h' = 'min'): Point => ({
  ...base(id),
  kind: 'timed',
  name: id,
  unit,
  limit: limit(words, unit),
});

export const computed = (id: string, formula: Formula, words?: string, unit: UnitId = 'mm'): Point => ({
  ...base(id),
  kind: 'computed',
  name: id,
  formula,
  unit,
  limit: limit(words, unit),
});

/** `|a - b|`. */
export const gap = (a: string, b: string): Formula => ({
  do: 'size',
  of: { do: '-', left: { do: 'name', name: a }, right: { do: 'name', name: b } },
});

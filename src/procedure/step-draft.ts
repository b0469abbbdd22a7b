import { type FactsDraft, noFacts } from './facts.ts';
import type { PointDraft } from './point-draft.ts';
import type { Caution, Picture } from './procedure.ts';

/** A step while its blocks are read. */
export interface StepDraft {
  readonly id: string;
  readonly title: string;
  readonly line: number;
  readonly at: number;
  readonly facts: FactsDraft;
  readonly cautions: Caution[];
  readonly pictures: Picture[];
  readonly prose: string[];
  readonly points: PointDraft[];
  /** Task items of the step, read or not. */
  asked: number;
}

export function emptyStep(id: string, title: string, line: number, at: number): StepDraft {
  return { id, title, line, at, facts: noFacts(), cautions: [], pictures: [], prose: [], points: [], asked: 0 };
}

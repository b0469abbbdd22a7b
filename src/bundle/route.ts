import type { StepId } from '../base/brand.ts';
import type { Procedure, Step } from '../procedure/procedure.ts';
import type { SetNumber } from './bundle.ts';

/** A step to be done once: for one set, or (null) for the whole bundle. */
export interface Place {
  readonly step: Step;
  readonly set: SetNumber;
}

/**
 * The order of the work. A step for the whole bundle is done once, when every set has come to it; the steps between two
 * such steps are done set by set, or each on all sets, as the procedure says.
 */
export function route(procedure: Procedure, sets: readonly number[]): readonly Place[] {
  const places: Place[] = [];
  let run: Step[] = [];
  const sewRun = (): void => {
    for (const place of procedure.work === 'set by set' ? bySet(run, sets) : byStep(run, sets)) places.push(place);
    run = [];
  };
  for (const step of procedure.steps) {
    if (step.facts.scope === 'set') {
      run.push(step);
    } else {
      sewRun();
      if (sets.length > 0) places.push({ step, set: null });
    }
  }
  sewRun();
  return places;
}

/** The steps that are asked again when a set, or the whole bundle (null), goes back to a step: that one and all after it. */
export function stepsFrom(procedure: Procedure, back: StepId): readonly StepId[] {
  const start = procedure.steps.findIndex((step) => step.id === back);
  return start < 0 ? [] : procedure.steps.slice(start).map((step) => step.id);
}

const bySet = (run: readonly Step[], sets: readonly number[]): Place[] =>
  sets.flatMap((set) => run.map((step) => ({ step, set })));

const byStep = (run: readonly Step[], sets: readonly number[]): Place[] =>
  run.flatMap((step) => sets.map((set) => ({ step, set })));

import type Fraction from 'fraction.js';
import type { StepId } from '../base/brand.ts';
import { fromDecimal } from '../measure/decimal.ts';
import { type Bundle, stepKey } from './bundle.ts';
import type { Room } from './room.ts';
import type { Place } from './route.ts';

/**
 * What this station reckons of its bobbins, mm: how much a full one holds, and what each step that sews from it takes, waste and all; null
 * where that could not be reckoned.
 */
export interface StationThread {
  readonly full: Fraction;
  readonly takes: ReadonlyMap<StepId, Fraction | null>;
}

/** What is left on the bobbin in the machine, mm; undefined while nobody has said. */
export const leftOnBobbin = ({ bobbin }: Pick<Room, 'bobbin'>): Fraction | undefined =>
  bobbin === null ? undefined : fromDecimal(bobbin);

/**
 * The thread of a step that must not run out within it and would on what is left: its seams show or cannot be undone, and it is not begun.
 * A step that takes more than a full bobbin is begun on a full one. Undefined for every other step.
 */
export function shortFor(
  room: Room,
  bundle: Bundle,
  at: Place,
  thread: StationThread | undefined,
): Fraction | undefined {
  const takes = thread?.takes.get(at.step.id);
  const { seams, cannotBeUndone } = at.step.facts;
  if (!thread || !takes || takes.lte(0) || !(cannotBeUndone || seams?.visible)) return undefined;
  if (isBegun(bundle, at)) return undefined;
  const left = leftOnBobbin(room);
  const needs = takes.lt(thread.full) ? takes : thread.full;
  return left === undefined || left.lt(needs) ? takes : undefined;
}

function isBegun(bundle: Bundle, { set, step }: Place): boolean {
  const checks = bundle.checks.get(stepKey(set, step.id));
  return checks !== undefined && [...checks.values()].flat().some(({ struck, again }) => !struck && !again);
}

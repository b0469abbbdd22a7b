import type { Drawing } from '../drawing/drawing.ts';
import { seamLength } from '../drawing/seam-length.ts';
import { nearestFirst } from '../procedure/nearest-first.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { RoomThread } from './room-thread.ts';
import { type StepThread, stepThread } from './step-thread.ts';

/**
 * The thread of every step that has seams, once. A seam is looked for in the pictures of its own step, then in all of the procedure. `drawings`
 * are those that can be measured, by the address that the procedure gives them.
 */
export function procedureThread(
  procedure: Procedure,
  drawings: ReadonlyMap<string, Drawing>,
  room: RoomThread,
): readonly StepThread[] {
  const shown = [...drawings].map(([address, drawing]) => ({ address, drawing }));
  return procedure.steps
    .filter(({ facts }) => facts.seams !== null)
    .map((step) => stepThread(step, (id) => firstLength(nearestFirst(shown, step), id), room));
}

function firstLength(shown: readonly { readonly drawing: Drawing }[], id: string): number | undefined {
  for (const { drawing } of shown) {
    const length = seamLength(drawing, id);
    if (length !== undefined) return length;
  }
  return undefined;
}

import Fraction from 'fraction.js';
import { fromDecimal } from '../measure/decimal.ts';
import type { SeamsFact, Step } from '../procedure/procedure.ts';
import { keptRatio, lockstitchRatio, type ThreadRatio, threadFor } from './consumption.ts';
import type { RoomThread } from './room-thread.ts';

/** The thread that the seams of a step take, waste and all; every length in mm. */
export interface StepThread {
  readonly step: Step;
  readonly seams: readonly SeamThread[];
  readonly length: Fraction;
  readonly thread: ThreadRatio;
  /** Where the thread below comes from: of a lockstitch the bobbin, of every other stitch a looper's cone, which nobody changes before a seam. */
  readonly under: 'bobbin' | 'cone';
  /** What could not be reckoned, as sentences; its thread is in no sum. */
  readonly unknown: readonly string[];
}

interface SeamThread {
  readonly id: string;
  readonly length: Fraction;
  readonly thread: ThreadRatio;
}

/**
 * The thread of a step. `lengthOf` answers the length of a seam in mm, from the drawing that shows it; undefined where none does.
 */
export function stepThread(step: Step, lengthOf: (id: string) => number | undefined, room: RoomThread): StepThread {
  const fact = step.facts.seams;
  if (!fact || fact.ids.length === 0) return sum(step, [], []);
  const ratio = ratioOf(fact, room);
  if (typeof ratio === 'string') return sum(step, [], [`Step ${step.number}: ${ratio}`]);
  const seams = fact.ids.flatMap((id): readonly SeamThread[] => {
    const known = lengthOf(id);
    if (known === undefined) return [];
    const length = new Fraction(Math.round(known * 1000), 1000);
    return [{ id, length, thread: threadFor(ratio, length, room.waste) }];
  });
  const missing = fact.ids.filter((id) => seams.every((seam) => seam.id !== id));
  return sum(
    step,
    seams,
    missing.map(
      (id) => `Step ${step.number}: no drawing of the procedure has a seam ${id}, so its length is not known.`,
    ),
  );
}

/** 301 by its formula where the text says what is sewn through, else what the room keeps for the type. */
function ratioOf({ stitch, stitchLength, thickness }: SeamsFact, room: RoomThread): ThreadRatio | string {
  if (stitch === null) return 'the seams name no stitch; write it, such as stitch 301 at 4.0 mm.';
  if (stitch === '301' && stitchLength !== null && thickness !== undefined && fromDecimal(stitchLength).gt(0))
    return lockstitchRatio(fromDecimal(thickness), fromDecimal(stitchLength));
  const kept = room.ratios.get(stitch.slice(0, 3));
  return kept
    ? keptRatio(kept.ratio, kept.needleShare)
    : `the room keeps no ratio for stitch ${stitch}; write it into walkfoot.yaml under thread ratios.`;
}

/** Class 300 of ISO 4915 are the lockstitches. */
const underOf = (stitch: string | null | undefined): StepThread['under'] =>
  stitch?.startsWith('3') ? 'bobbin' : 'cone';

/** The thread that a step takes from the bobbin. */
export const bobbinOf = ({ under, thread }: Pick<StepThread, 'under' | 'thread'>): Fraction =>
  under === 'bobbin' ? thread.under : new Fraction(0);

/** The thread that a step takes from the loopers' cones. */
export const loopersOf = ({ under, thread }: Pick<StepThread, 'under' | 'thread'>): Fraction =>
  under === 'cone' ? thread.under : new Fraction(0);

function sum(step: Step, seams: readonly SeamThread[], unknown: readonly string[]): StepThread {
  const length = total(seams.map((seam) => seam.length));
  return { step, seams, length, thread: together(seams), under: underOf(step.facts.seams?.stitch), unknown };
}

const together = (parts: readonly { readonly thread: ThreadRatio }[]): ThreadRatio => ({
  needle: total(parts.map(({ thread }) => thread.needle)),
  under: total(parts.map(({ thread }) => thread.under)),
});

export const total = (amounts: readonly Fraction[]): Fraction =>
  amounts.reduce((all, each) => all.add(each), new Fraction(0));

import type { Digest, PointId, ProcedureId, StepId } from '../base/brand.ts';
import type { Limit } from '../measure/limit.ts';
import type { UnitId } from '../measure/unit.ts';
import type { Formula } from './formula.ts';

/** A procedure as the reader understood it. Lines and columns count from 1 in the file it was read from. */
export interface Procedure {
  readonly id: ProcedureId;
  readonly title: string;
  /** Who wrote it, by a name of the room; null where the text does not say. */
  readonly author: string | null;
  /** Sets in a bundle, unless the ticket says otherwise. */
  readonly sets: number;
  readonly work: 'set by set' | 'step by step';
  readonly readCautions: ReadCautions;
  readonly kit: readonly KitPiece[];
  /** Markdown between the front matter and the first step, without the level-1 heading. */
  readonly intro: string;
  readonly steps: readonly Step[];
}

/** How often a hand reads a caution: once in this bundle, once since signing on, or each time the step is begun. */
export type ReadCautions = 'once a bundle' | 'once a shift' | 'every time';

export interface KitPiece {
  readonly id: string;
  readonly words: string;
  /** Pieces of this name in one set. */
  readonly count: number;
  readonly side: 'left' | 'right' | null;
}

export interface Step {
  /** Counts from 1 in the order of the file. */
  readonly number: number;
  readonly id: StepId;
  readonly title: string;
  readonly line: number;
  readonly facts: StepFacts;
  readonly cautions: readonly Caution[];
  readonly pictures: readonly Picture[];
  /** Markdown of everything in the step that is no fact, caution, picture or point, values put in. */
  readonly prose: string;
  readonly points: readonly Point[];
}

export interface StepFacts {
  /** `bundle`: done once for all sets; `set`: done for each set. */
  readonly scope: 'bundle' | 'set';
  /** Allowed time in minutes, a decimal string. */
  readonly allowedMinutes: string | null;
  /** The words after `Seams:`, ids first: `D1 D2 D3 D4, stitch 301 at 4.0 mm, visible`. */
  readonly seams: SeamsFact | null;
  readonly ifOut: IfOut | null;
  readonly needsSkill: string | null;
  readonly cannotBeUndone: boolean;
}

export interface SeamsFact {
  readonly text: string;
  readonly ids: readonly string[];
  /** Stitch type of ISO 4915, such as `301`. */
  readonly stitch: string | null;
  /** Stitch length in mm, a decimal string. */
  readonly stitchLength: string | null;
  /** What is sewn through, pressed together, in mm, a decimal string; only where the text says so. */
  readonly thickness?: string;
  readonly visible: boolean;
  /** Edges of the drawing that the seam joins, in pairs; left out where the text names none. */
  readonly joins?: readonly (readonly [string, string])[];
  /** How much longer one of two joined edges may be than the other, in mm, a decimal string. */
  readonly ease?: string;
}

/** What to do with a reading out of its limit. `backTo` is set when the words are `back to …` and name an earlier or the same step. */
export interface IfOut {
  readonly text: string;
  readonly backTo: StepId | null;
}

/** Signal words of ANSI Z535.6 / ISO 3864-2. NOTICE is about material and carries no alert triangle. */
export type SignalWord = 'DANGER' | 'WARNING' | 'CAUTION' | 'NOTICE';

export interface Caution {
  readonly word: SignalWord;
  /** Plain text after the signal word: hazard, consequence, avoidance. */
  readonly text: string;
  readonly line: number;
}

export interface Picture {
  readonly alt: string;
  /** Address without its fragment, as written. */
  readonly address: string;
  /** Ids of lines or pieces to bring out, from the fragment. */
  readonly bringOut: readonly string[];
  readonly line: number;
  /** Of the file, where the procedure was read together with its pictures. */
  readonly digest?: Digest;
}

interface PointBase {
  readonly id: PointId;
  /** What is asked, plain text without blank, limit and pin. */
  readonly text: string;
  readonly line: number;
}

export type Point = Tick | ReadingPoint | CountPoint | Choice | Written | Timed | Computed | HoldPoint;
export type PointKind = Point['kind'];

interface Tick extends PointBase {
  readonly kind: 'tick';
}
export interface ReadingPoint extends PointBase {
  readonly kind: 'reading';
  /** The name that formulas use for it, when a code span gives one. */
  readonly name: string | null;
  readonly unit: UnitId;
  /** Blanks on the line: the number of places to measure. */
  readonly places: number;
  readonly limit: Limit | null;
  /** The lengths of the drawing that are measured, as written: one for all places, or one for each; left out where the text names none. */
  readonly measures?: readonly string[];
}
export interface CountPoint extends PointBase {
  readonly kind: 'count';
  readonly name: string | null;
  readonly unit: 'pcs';
  readonly places: number;
  readonly limit: Limit | null;
}
export interface Choice extends PointBase {
  readonly kind: 'choice';
  readonly options: readonly { readonly text: string; readonly acceptable: boolean }[];
}
interface Written extends PointBase {
  readonly kind: 'written';
}
/** The program times it: a clock is started, and stopped. */
export interface Timed extends PointBase {
  readonly kind: 'timed';
  readonly name: string | null;
  readonly unit: 's' | 'min' | 'h';
  readonly limit: Limit | null;
}
/** Worked out from named points of the same set (or of the whole bundle); never typed. */
export interface Computed extends PointBase {
  readonly kind: 'computed';
  readonly name: string | null;
  readonly formula: Formula;
  readonly unit: UnitId;
  readonly limit: Limit | null;
}
/** A second person, whose role may release it, looks and signs. */
interface HoldPoint extends PointBase {
  readonly kind: 'hold point';
}

import type Fraction from 'fraction.js';
import { assertNever } from '../base/assert-never.ts';
import type { Digest, HandId } from '../base/brand.ts';
import type { Caution, Point, Procedure, ReadCautions } from '../procedure/procedure.ts';
import { leftOnBobbin, type StationThread, shortFor } from './bobbin.ts';
import {
  type Bundle,
  type Check,
  type Hold,
  isConceded,
  isGood,
  liveCheck,
  openHold,
  pointKey,
  type RunningClock,
  setsLeft,
  stepKey,
} from './bundle.ts';
import { cautionKey, type Room } from './room.ts';
import { type Place, route } from './route.ts';
import { doesAlone, type Level, levelOf } from './skill.ts';

/** What a bundle wants next from the hand who stands before it. Exactly one thing at a time. */
export type Next =
  | { readonly want: 'opening' }
  | { readonly want: 'resuming' }
  | { readonly want: 'settling'; readonly hold: Hold }
  /** `number`: which of the changes is to be read, from 1. */
  | { readonly want: 'changes'; readonly from: Digest; readonly number: number }
  /** Somebody who does it alone is to stand by: the step asks for a skill this hand has only so far. */
  | { readonly want: 'helping'; readonly at: Place; readonly skill: string; readonly level: Level }
  | {
      readonly want: 'caution';
      readonly at: Place;
      readonly caution: Caution;
      readonly number: number;
      readonly of: number;
    }
  /** The step would run out of bobbin: it `takes` more than is `left`, mm; null when nobody has said what is on it. */
  | {
      readonly want: 'bobbin';
      readonly at: Place;
      readonly takes: Fraction;
      readonly left: Fraction | null;
      readonly full: Fraction;
    }
  | WantedPoint
  | { readonly want: 'finish' }
  | { readonly want: 'nothing' };

export interface WantedPoint {
  readonly want: 'point';
  readonly at: Place;
  readonly point: Point;
  /** Which blank of the point, from 1. */
  readonly place: number;
  /** A value that was recorded for this blank and is not acceptable. */
  readonly outside: Check | null;
  /** The running clock of a timed point. */
  readonly clock: RunningClock | null;
}

/**
 * The one thing that comes next, for this hand. `procedure` is the text the bundle is bound to (or will be); with the station's `thread` a fresh bobbin
 * is wanted, too, where a seam would not fit.
 */
export function next(procedure: Procedure, room: Room, bundle: Bundle, hand: HandId, thread?: StationThread): Next {
  if (bundle.work === 'finished') return { want: 'nothing' };
  if (!bundle.text) return { want: 'opening' };
  const hold = openHold(bundle);
  if (hold) return { want: 'settling', hold };
  if (bundle.work !== 'open' || bundle.hand !== hand) return { want: 'resuming' };
  const changes = bundle.changesToRead;
  if (changes?.hand === hand) return { want: 'changes', from: changes.from, number: changes.read + 1 };
  const wanted = wantedPoint(procedure, bundle);
  if (!wanted) return { want: 'finish' };
  return (
    missingHelp(room, bundle, hand, wanted.at) ??
    unreadCaution(procedure, room, bundle, hand, wanted.at) ??
    shortBobbin(room, bundle, wanted.at, thread) ??
    wanted
  );
}

function shortBobbin(room: Room, bundle: Bundle, at: Place, thread: StationThread | undefined): Next | undefined {
  const takes = shortFor(room, bundle, at, thread);
  return takes && thread && { want: 'bobbin', at, takes, left: leftOnBobbin(room) ?? null, full: thread.full };
}

/** The first point of the route that is not yet good, whoever is at the machine. */
export function wantedPoint(procedure: Procedure, bundle: Bundle): WantedPoint | undefined {
  for (const at of route(procedure, setsLeft(bundle))) {
    if (isPlainlyDone(bundle, at)) continue;
    for (const point of at.step.points) {
      const place = firstOpenBlank(bundle, at, point);
      if (place === undefined) continue;
      const key = pointKey(at.set, at.step.id, point.id);
      const outside = liveCheck(bundle, key, place) ?? null;
      return { want: 'point', at, point, place, outside, clock: bundle.clocks.get(key) ?? null };
    }
  }
  return undefined;
}

/**
 * Whether every blank of the step has a good value, without any concession. Remembered with the step's checks, which are made anew
 * whenever one of them changes: a bundle of many points is asked this at every key.
 */
function isPlainlyDone(bundle: Bundle, { set, step }: Place): boolean {
  const checks = bundle.checks.get(stepKey(set, step.id));
  if (!checks) return false;
  const known = plainlyDone.get(checks);
  if (known !== undefined) return known;
  const done = step.points.every((point) =>
    Array.from({ length: blanksOf(point) }).every((_, blank) =>
      isGood(liveCheck(bundle, pointKey(set, step.id, point.id), blank + 1)),
    ),
  );
  plainlyDone.set(checks, done);
  return done;
}

const plainlyDone = new WeakMap<object, boolean>();

/** The first blank of a point that has no good value and is not let through; undefined when the point is done. */
export function firstOpenBlank(bundle: Bundle, at: Place, point: Point): number | undefined {
  const key = pointKey(at.set, at.step.id, point.id);
  for (let place = 1; place <= blanksOf(point); place++) if (isOpen(bundle, key, place)) return place;
  return undefined;
}

/** How many blanks of a step are so. */
export function openBlanks(bundle: Bundle, at: Place): number {
  return at.step.points.reduce((sum, point) => {
    const key = pointKey(at.set, at.step.id, point.id);
    return sum + Array.from({ length: blanksOf(point) }).filter((_, blank) => isOpen(bundle, key, blank + 1)).length;
  }, 0);
}

const isOpen = (bundle: Bundle, key: string, place: number): boolean =>
  !isGood(liveCheck(bundle, key, place)) && !isConceded(bundle, key, place);

export const blanksOf = (point: Point): number =>
  point.kind === 'reading' || point.kind === 'count' ? point.places : 1;

/** Points done and to do on the whole route: the stitches of the progress line. */
export function progress(procedure: Procedure, bundle: Bundle): { readonly done: number; readonly of: number } {
  const all = route(procedure, setsLeft(bundle)).flatMap((at) =>
    at.step.points.map((point) => firstOpenBlank(bundle, at, point)),
  );
  return { done: all.filter((open) => open === undefined).length, of: all.length };
}

/** Once for each step, set and sewer, before the step's cautions, so that both read them. */
function missingHelp(room: Room, bundle: Bundle, hand: HandId, at: Place): Next | undefined {
  const skill = at.step.facts.needsSkill;
  if (skill === null || doesAlone(room, hand, skill)) return undefined;
  const isThere = bundle.helps.some((help) => help.hand === hand && help.step === at.step.id && help.set === at.set);
  return isThere ? undefined : { want: 'helping', at, skill, level: levelOf(room, hand, skill) };
}

function unreadCaution(procedure: Procedure, room: Room, bundle: Bundle, hand: HandId, at: Place): Next | undefined {
  const { cautions } = at.step;
  const index = cautions.findIndex((_, before) => !hasRead(procedure.readCautions, room, bundle, hand, at, before + 1));
  const caution = cautions[index];
  return caution && { want: 'caution', at, caution, number: index + 1, of: cautions.length };
}

function hasRead(
  often: ReadCautions,
  room: Room,
  bundle: Bundle,
  hand: HandId,
  { step, set }: Place,
  caution: number,
): boolean {
  const here = bundle.cautionsRead.filter(
    (read) => read.hand === hand && read.step === step.id && read.caution === caution,
  );
  switch (often) {
    case 'once a bundle':
      return here.length > 0;
    case 'every time':
      return here.some((read) => read.set === set && !read.again);
    case 'once a shift':
      return bundle.text !== null && readThisShift(room, hand, cautionKey(bundle.text.digest, step.id, caution));
    default:
      return assertNever(often);
  }
}

const readThisShift = (room: Room, hand: HandId, key: string): boolean =>
  room.readThisShift.get(hand)?.has(key) ?? false;

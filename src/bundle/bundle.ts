import type { Digest, HandId, PointId, ProcedureId, StepId, TicketId } from '../base/brand.ts';
import type { Body, Settling } from './entries.ts';

/** A set's number, or null for the whole bundle. */
export type SetNumber = number | null;

/** One value or tick that was recorded, with what became of it. */
export interface Check extends Omit<Body<'checked'>, 'ticket' | 'nth' | 'clockBack'> {
  readonly seq: number;
  readonly at: string;
  readonly hand: HandId;
  /** Crossed out; stays readable. */
  readonly struck: ({ readonly reason: string } & Signed) | null;
  /** Asked again because the work went back to this step. */
  readonly again: boolean;
}

/** Who answers for something, when, and whether a PIN proved it. */
export interface Signed {
  readonly by: HandId;
  readonly at: string;
  readonly signed?: true | undefined;
}

export interface Hold {
  readonly name: string;
  readonly set: SetNumber;
  readonly step: StepId | null;
  readonly point: PointId | null;
  readonly place: number | null;
  readonly reason: string;
  readonly by: HandId;
  readonly at: string;
  readonly settled: ({ readonly how: Settling; readonly reason: string } & Signed) | null;
}

/** A running clock of a timed point. `elapsedMs` is what had passed at the bundle's last entry. */
export interface RunningClock {
  readonly elapsedMs: number;
  /** What the station's clock was set back by and has not run since: it may be put right at any time. */
  readonly owedMs: number;
  /** The station's clock was set back while this one ran: the time is a lower bound. */
  readonly setBack: boolean;
}

export type Checks = ReadonlyMap<string, ReadonlyMap<string, readonly Check[]>>;

/** Everything that happened to one bundle: a fold over the entries that carry its ticket. */
export interface Bundle {
  readonly ticket: TicketId;
  readonly procedure: ProcedureId;
  readonly sets: number;
  readonly rolls: readonly string[];
  readonly ticketedAt: string;
  /** The text it is played from, from the first opening on. */
  readonly text: { readonly digest: Digest; readonly understood: Digest; readonly revision: string } | null;
  /** Who has it, and how. */
  readonly work: 'not opened' | 'open' | 'paused' | 'handed over' | 'finished';
  /** Since when it stands so. */
  readonly workSince: string;
  readonly hand: HandId | null;
  readonly openedAt: string | null;
  readonly finished: Omit<Body<'finished'>, 'ticket' | 'nth' | 'clockBack'> | null;
  /** By `stepKey`, then by `pointKey`; oldest first. In two levels, as every entry copies the map it changes. */
  readonly checks: Checks;
  readonly cautionsRead: readonly {
    readonly hand: HandId;
    readonly set: SetNumber;
    readonly step: StepId;
    readonly caution: number;
    /** The work went back to this step since. */
    readonly again: boolean;
  }[];
  /** Steps, by `stepKey`, whose thread is counted; those the work went back behind are gone. */
  readonly sewn: ReadonlySet<string>;
  /** Who stood by for whom at which step; those the work went back behind are gone. */
  readonly helps: readonly {
    readonly hand: HandId;
    readonly by: HandId;
    readonly set: SetNumber;
    readonly step: StepId;
  }[];
  /** Who opened it on a text that is not the one they had played before, and which that was; how many of the changes are read, while others are not. */
  readonly changesToRead: { readonly hand: HandId; readonly from: Digest; readonly read: number } | null;
  readonly holds: readonly Hold[];
  /** Blanks let through by a concession: their places, by `pointKey`. */
  readonly conceded: ReadonlyMap<string, ReadonlySet<number>>;
  readonly scrapped: ReadonlySet<number>;
  readonly clocks: ReadonlyMap<string, RunningClock>;
  /** How often its code was put on paper. */
  readonly printed: number;
  /** A supervisor lets it be finished on its revision, although this one was in use then; null inside: none was. */
  readonly keptOn: { readonly current: string | null; readonly seq: number } | null;
  /** When a sheet was last printed for it: what is written on that is by the text in use then. */
  readonly sheetAt: string | null;
  /** When the work that was recorded last was done; what paper says was done comes after it. */
  readonly workedAt: string | null;
  readonly lastAt: string;
  readonly lastSeq: number;
  /** How many entries it has, its ticket not counted. */
  readonly entries: number;
}

/** Names one step of one set. */
export const stepKey = (set: SetNumber, step: StepId): string => `${set ?? 'all'} ${step}`;

/** Names one point of one set: its `stepKey`, then the point's name, which has no space. */
export const pointKey = (set: SetNumber, step: StepId, point: PointId): string => `${stepKey(set, step)} ${point}`;

/** The `stepKey` in a `pointKey`. */
export const stepOf = (key: string): string => key.slice(0, key.lastIndexOf(' '));

export const openHold = (bundle: Bundle): Hold | undefined => bundle.holds.find((hold) => !hold.settled);

/** All checks of one point, struck or not, oldest first. */
export const checksOf = (bundle: Bundle, key: string): readonly Check[] =>
  bundle.checks.get(stepOf(key))?.get(key) ?? [];

/** The check that counts for one blank of a point: the newest that is neither struck nor asked again. */
export const liveCheck = (bundle: Bundle, key: string, place: number): Check | undefined =>
  checksOf(bundle, key).findLast((check) => check.place === place && !check.struck && !check.again);

/** Whether an answer of this verdict lets the work go on. */
export const isGoodVerdict = (verdict: string | null): boolean => verdict === 'within' || verdict === 'not judged';

export const isGood = (check: Check | undefined): check is Check => check !== undefined && isGoodVerdict(check.verdict);

/** True when this hand has recorded anything in the set (or, for the whole bundle, anywhere in it), struck or not. */
export const workedOn = (bundle: Bundle, hand: HandId, set: SetNumber): boolean =>
  allChecks(bundle).some((check) => check.hand === hand && (set === null || check.set === set));

export function allChecks(bundle: Bundle): readonly Check[] {
  const ofPoints = [...bundle.checks.values()].flatMap((points) => [...points.values()]);
  return ofPoints.flat().sort((a, b) => a.seq - b.seq);
}

export const setsLeft = (bundle: Bundle): readonly number[] =>
  Array.from({ length: bundle.sets }, (_, index) => index + 1).filter((set) => !bundle.scrapped.has(set));

export const isConceded = (bundle: Bundle, key: string, place: number): boolean =>
  bundle.conceded.get(key)?.has(place) ?? false;

/** Sets that are used although something about them, or about the whole bundle, is not to the letter. */
export function setsConceded(bundle: Bundle): readonly number[] {
  const conceded = bundle.holds.filter(
    ({ settled, set, step, point, place }) =>
      settled?.how.as === 'concession' &&
      !(step && point && place && !isConceded(bundle, pointKey(set, step, point), place)),
  );
  return setsLeft(bundle).filter((set) => conceded.some((hold) => hold.set === null || hold.set === set));
}

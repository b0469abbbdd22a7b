import type { HandId } from '../base/brand.ts';
import { type Instant, parseStamp } from '../base/instant.ts';

/** What is kept of a PIN: a salted scrypt hash and its cost, as the body of `pin-set` has them. */
export interface SealedPin {
  readonly salt: string;
  readonly hash: string;
  readonly n: number;
  readonly r: number;
  readonly p: number;
}

/** A hand's PIN as the room knows it. */
export interface KnownPin extends SealedPin {
  /** The entry that set it: what was proven against an older one no longer counts. */
  readonly seq: number;
}

/** Wrong PINs since the last right one. */
export interface WrongTries {
  readonly count: number;
  readonly lastAt: string;
}

/** Somebody typed the PIN of this hand, and it was the one that the entry `pin` had set. */
export interface Proof {
  readonly hand: HandId;
  readonly pin: number;
}

/** So many wrong ones are a slip of the finger. */
const FREE_TRIES = 3;
const FIRST_WAIT_S = 30;
const LONGEST_WAIT_S = 15 * 60;

/**
 * Seconds until another PIN may be tried: none for the first two wrong ones, 30 after the third, twice as long after each more,
 * at most 15 minutes. A clock that stands far before or behind the last try ends the wait: whoever sets the clock owns the
 * station anyway, and a clock put right must lock nobody out for a year.
 */
export function secondsToWait(tries: WrongTries | undefined, now: Instant): number {
  if (!tries || tries.count < FREE_TRIES) return 0;
  const wait = Math.min(LONGEST_WAIT_S, FIRST_WAIT_S * 2 ** Math.min(16, tries.count - FREE_TRIES));
  const passedMs = Math.abs(now.ms - (parseStamp(tries.lastAt)?.ms ?? now.ms));
  return Math.max(0, Math.ceil(wait - passedMs / 1000));
}

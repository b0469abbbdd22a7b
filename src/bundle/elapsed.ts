import { Fraction } from 'fraction.js';
import { formatStamp, type Instant } from '../base/instant.ts';
import type { RunningClock } from './bundle.ts';
import { passed } from './passed.ts';

/** Whole seconds a timed point's clock has run, over leaving and restarting; never negative, whatever the station's clock does. */
export function elapsedSeconds(clock: RunningClock, lastAt: string, now: Instant): number {
  return Math.floor((clock.elapsedMs + passed(lastAt, formatStamp(now)).ms) / 1000);
}

/** The same in the unit of the point, exact. */
export function elapsed(
  clock: RunningClock,
  { bundle, now }: { readonly bundle: { readonly lastAt: string }; readonly now: Instant },
  unit: 's' | 'min' | 'h',
): Fraction {
  return new Fraction(elapsedSeconds(clock, bundle.lastAt, now)).div(secondsIn[unit]);
}

const secondsIn = { s: 1, min: 60, h: 3600 } as const;

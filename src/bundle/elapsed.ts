import { Fraction } from 'fraction.js';
import { formatStamp, type Instant } from '../base/instant.ts';
import type { RunningClock } from './bundle.ts';
import { passed } from './passed.ts';

/**
 * A running clock after the time between two stamps. What the station's clock was set back by is owed: time that passes later
 * pays that first, since it may be nothing but the clock being put right. What is told is so never more than what passed.
 */
export function ranOn(clock: RunningClock, from: string, to: string): RunningClock {
  const { ms, setBackMs } = passed(from, to);
  return {
    elapsedMs: clock.elapsedMs + Math.max(0, ms - clock.owedMs),
    owedMs: Math.max(0, clock.owedMs - ms) + setBackMs,
    setBack: clock.setBack || setBackMs > 0,
  };
}

/** Whole seconds a timed point's clock has run, over leaving and restarting; never negative, whatever the station's clock does. */
export const elapsedSeconds = (clock: RunningClock, lastAt: string, now: Instant): number =>
  Math.floor(ranOn(clock, lastAt, formatStamp(now)).elapsedMs / 1000);

/** The same in the unit of the point, exact. */
export function elapsed(
  clock: RunningClock,
  { bundle, now }: { readonly bundle: { readonly lastAt: string }; readonly now: Instant },
  unit: 's' | 'min' | 'h',
): Fraction {
  return new Fraction(elapsedSeconds(clock, bundle.lastAt, now)).div(secondsIn[unit]);
}

const secondsIn = { s: 1, min: 60, h: 3600 } as const;

import { parseStamp } from '../base/instant.ts';

/** What lies between two stamps: the time that passed, or else how far the station's clock was set back. Never both. */
interface Passed {
  readonly ms: number;
  readonly setBackMs: number;
}

/** From the bundle's entry before to this one. Less than a second back is a clock being steered, not set: no time passed. */
export function passed(from: string, to: string): Passed {
  const ms = (parseStamp(to)?.ms ?? 0) - (parseStamp(from)?.ms ?? 0);
  return { ms: Math.max(0, ms), setBackMs: ms <= -1000 ? -ms : 0 };
}

/** A moment: milliseconds since 1970-01-01 UTC, and the local offset from UTC in minutes (east positive) at that moment. */
export interface Instant {
  readonly ms: number;
  readonly offset: number;
}

/** Tells the time; passed in, so that nothing below the edge of the program reads a clock by itself. */
export type Clock = () => Instant;

/** Minutes east of UTC when a wall clock here showed this, `2026-11-24T10:42`: in summer it may be another. Passed in, like the clock. */
export type OffsetAt = (wall: string) => number;

const two = (n: number): string => String(n).padStart(2, '0');

/** The moment as RFC 3339 with milliseconds and local offset, such as `2026-11-25T10:42:07.120+01:00`. */
export function formatStamp({ ms, offset }: Instant): string {
  const local = new Date(ms + offset * 60_000).toISOString().slice(0, -1);
  const sign = offset < 0 ? '-' : '+';
  const size = Math.abs(offset);
  return `${local}${sign}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

const STAMP =
  /^(\d{4})-(\d{2})-(\d{2})T([01]\d|2[0-3]):([0-5]\d):([0-5]\d)(?:\.(\d{1,9}))?(?:Z|([+-])([01]\d|2[0-3]):([0-5]\d))$/i;

/**
 * Reads an RFC 3339 date-time; `undefined` when it is none. Fractions below a millisecond are cut off; leap seconds, which
 * no clock of ours writes, are refused.
 */
export function parseStamp(text: string): Instant | undefined {
  const found = STAMP.exec(text);
  if (!found) return undefined;
  const [year, month, day, hour, minute, second] = found.slice(1, 7).map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const [fraction = '', sign, hours = '0', minutes = '0'] = found.slice(7);
  const size = Number(hours) * 60 + Number(minutes);
  const offset = sign === '-' && size > 0 ? -size : size;
  const local = new Date(0);
  local.setUTCFullYear(year, month - 1, day);
  // A day that the month does not have has silently become one of the next month.
  if (local.getUTCDate() !== day || local.getUTCMonth() !== month - 1) return undefined;
  local.setUTCHours(hour, minute, second, Number(fraction.padEnd(3, '0').slice(0, 3)));
  return { ms: local.getTime() - offset * 60_000, offset };
}

/** Orders stamps by their moments, whatever their offsets; what is no stamp counts as long ago. */
export const byTime = (a: string, b: string): number => (parseStamp(a)?.ms ?? 0) - (parseStamp(b)?.ms ?? 0);

/** Hours and minutes of a stamp as its writer's wall clock showed them, such as `10:42`. */
export const wallTime = (stamp: string): string => stamp.slice(11, 16);

/** The same moment as a stamp in UTC; what is no stamp stays as it is. */
export const inUtc = (stamp: string): string => {
  const moment = parseStamp(stamp);
  return moment ? formatStamp({ ms: moment.ms, offset: 0 }).replace('+00:00', 'Z') : stamp;
};

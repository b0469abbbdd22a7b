/** A moment: milliseconds since 1970-01-01 UTC, and the local offset from UTC in minutes (east positive) at that moment. */
export interface Instant {
  readonly ms: number;
  readonly offset: number;
}

/** Tells the time; passed in, so that nothing below the edge of the program reads a clock by itself. */
export type Clock = () => Instant;

const two = (n: number): string => String(n).padStart(2, '0');

/** The moment as RFC 3339 with milliseconds and local offset, such as `2026-11-25T10:42:07.120+01:00`. */
export function formatStamp({ ms, offset }: Instant): string {
  const local = new Date(ms + offset * 60_000).toISOString().slice(0, -1);
  const sign = offset < 0 ? '-' : '+';
  const size = Math.abs(offset);
  return `${local}${sign}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

const STAMP =
  /^(\d{4}-\d{2}-\d{2}T(?:[01]\d|2[0-3])):[0-5]\d:[0-5]\d(?:\.\d{1,9})?(?:Z|([+-])([01]\d|2[0-3]):([0-5]\d))$/i;

/**
 * Reads an RFC 3339 date-time; `undefined` when it is none. Fractions below a millisecond are cut off; leap seconds, which
 * no clock of ours writes, are refused.
 */
export function parseStamp(text: string): Instant | undefined {
  const found = STAMP.exec(text);
  if (!found) return undefined;
  const [, hour = '', sign, hours, minutes] = found;
  const ms = Date.parse(text.toUpperCase().replace(/(\.\d{3})\d+/, '$1'));
  const size = Number(hours ?? 0) * 60 + Number(minutes ?? 0);
  const offset = sign === '-' && size > 0 ? -size : size;
  // A day that the month does not have would silently become one of the next month.
  const real = !Number.isNaN(ms) && formatStamp({ ms, offset }).startsWith(hour.toUpperCase());
  return real ? { ms, offset } : undefined;
}

/** Hours and minutes of a stamp as its writer's wall clock showed them, such as `10:42`. */
export const wallTime = (stamp: string): string => stamp.slice(11, 16);

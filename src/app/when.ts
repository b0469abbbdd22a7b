import { formatStamp, type Instant, parseStamp, wallTime } from '../base/instant.ts';
import type { Plain, Say } from '../words/say.ts';

/** A stamp as a person says it: `10:42` today, `24 Nov 10:42` this year, `24 Nov 2025 10:42` before. */
export function when(say: Say, stamp: string, now: Instant): string {
  const today = formatStamp(now);
  if (stamp.slice(0, 10) === today.slice(0, 10)) return wallTime(stamp);
  return stamp.slice(0, 4) === today.slice(0, 4)
    ? `${say('{day} {month}', dayAndMonth(say, stamp))} ${wallTime(stamp)}`
    : dayAndTime(say, stamp);
}

/** A stamp in full, as it stands under a signature: `25 Nov 2026 10:42`. */
export const dayAndTime = (say: Say, stamp: string): string => `${dayOf(say, stamp)} ${wallTime(stamp)}`;

/** The day of a stamp: `25 Nov 2026`. */
export const dayOf = (say: Say, stamp: string): string =>
  say('{day} {month} {year}', { ...dayAndMonth(say, stamp), year: stamp.slice(0, 4) });

function dayAndMonth(say: Say, stamp: string): { readonly day: number; readonly month: string } {
  const month = MONTHS[Number(stamp.slice(5, 7)) - 1];
  return { day: Number(stamp.slice(8, 10)), month: month === undefined ? '?' : say(month) };
}

/** How long since: `just now`, `12 min`, `3 h 05 min`, `4 days`. Empty when the clock stands before the stamp. */
export function since(say: Say, stamp: string, now: Instant): string {
  const from = parseStamp(stamp);
  if (!from || now.ms < from.ms) return '';
  return lasted(say, now.ms - from.ms);
}

export function lasted(say: Say, ms: number): string {
  const minutes = Math.floor(ms / 60_000);
  if (minutes < 1) return say('just now');
  if (minutes < 60) return `${minutes} min`;
  if (minutes < 48 * 60) return `${Math.floor(minutes / 60)} h ${two(minutes % 60)} min`;
  return say('{count} days', { count: Math.floor(minutes / (24 * 60)) });
}

/** A running clock: `04:05`, or `1:04:05` from an hour on. */
export function clockFace(seconds: number): string {
  const rest = `${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
  return seconds < 3600 ? rest : `${Math.floor(seconds / 3600)}:${rest}`;
}

const MONTHS = [
  'Jan',
  'Feb',
  'Mar',
  'Apr',
  'May',
  'Jun',
  'Jul',
  'Aug',
  'Sep',
  'Oct',
  'Nov',
  'Dec',
] as const satisfies readonly Plain[];

const two = (n: number): string => String(n).padStart(2, '0');

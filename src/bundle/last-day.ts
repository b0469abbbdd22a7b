import { formatStamp, type Instant, parseStamp } from '../base/instant.ts';
import { ok, type Result, refuse } from '../base/result.ts';

/** The last day of a concession, an RFC 3339 full-date that the calendar has and that is not past. */
export function lastDay(text: string, now: Instant): Result<string> {
  const day = parseStamp(`${text}T00:00:00Z`);
  if (!day)
    return refuse('concession-expiry', 'A concession needs its last day, as year-month-day, such as 2026-12-31.');
  if (text < formatStamp(now).slice(0, 10))
    return refuse('concession-expired', '{text} is past: give a day still to come.', { text });
  return ok(text);
}

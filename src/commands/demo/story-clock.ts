import type { Clock, Instant } from '../../base/instant.ts';

/** A clock that goes only as far as the story takes it: forward, and never past the moment at which the story is told. */
export interface StoryClock {
  readonly clock: Clock;
  /** To this wall time, such as `07:30`, of the so-manieth working day (Monday to Friday) before today. */
  turnTo(workdaysAgo: number, time: string): void;
  pass(seconds: number): void;
}

/** `now` is the moment at which the story is told; its offset holds for all of it. */
export function storyClock(now: Instant): StoryClock {
  const { offset } = now;
  let ms = Number.NEGATIVE_INFINITY;
  const turn = (to: number): void => {
    const wrong = to < ms ? 'back' : to > now.ms ? 'into the future' : undefined;
    if (wrong) throw new Error(`the story turns its clock ${wrong}, to ${new Date(to).toISOString()}`);
    ms = to;
  };
  return {
    clock: () => ({ ms, offset }),
    turnTo: (workdaysAgo, time) => turn(midnight(now, workdaysAgo) + minutes(time) * 60_000),
    pass: (seconds) => turn(ms + Math.round(seconds * 1000)),
  };
}

const DAY_MS = 86_400_000;

function midnight({ ms, offset }: Instant, workdaysAgo: number): number {
  const shift = offset * 60_000;
  let day = Math.floor((ms + shift) / DAY_MS);
  for (let left = workdaysAgo; left > 0; ) {
    day -= 1;
    const weekday = new Date(day * DAY_MS).getUTCDay();
    if (weekday !== 0 && weekday !== 6) left -= 1;
  }
  return day * DAY_MS - shift;
}

function minutes(time: string): number {
  const [hours = 0, rest = 0] = time.split(':').map(Number);
  return hours * 60 + rest;
}

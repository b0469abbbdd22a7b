import { type Bundle, isConceded, setsLeft } from './bundle.ts';
import { doneAt } from './done-at.ts';
import type { RecordedEntry } from './entries.ts';
import { passed } from './passed.ts';

/**
 * What the time since the bundle's entry before was spent on, in milliseconds. All of it is one of the three: work; waiting,
 * while a hold was open or a timed clock ran; pause, while the bundle lay until somebody opened it or took it up. Together the
 * three of a bundle's entries are the time from its ticket on, less what a clock that was set back hides.
 */
export interface Spent {
  readonly work: number;
  readonly waiting: number;
  readonly pause: number;
}

const NONE: Spent = { work: 0, waiting: 0, pause: 0 };

/** `before` is the bundle as it stood before the entry; undefined before its ticket, when there is nothing to count from. */
export function spent(before: Bundle | undefined, entry: Pick<RecordedEntry, 'at' | 'kind' | 'body'>): Spent {
  if (!before) return NONE;
  const { kind } = entry;
  const { ms } = passed(before.lastAt, doneAt(entry));
  // After a power cut nobody left the bundle, and still it lay until it was taken up: when it was put down is not known.
  if (before.work !== 'open' || kind === 'resumed') return { ...NONE, pause: ms };
  return isWaiting(before) ? { ...NONE, waiting: ms } : { ...NONE, work: ms };
}

const isWaiting = (bundle: Bundle): boolean =>
  bundle.holds.some((hold) => !hold.settled) || [...bundle.clocks.keys()].some((key) => isWaitedFor(bundle, key));

/** A clock that was stopped too early runs on; nobody waits for it when its point was let through or its set scrapped. */
function isWaitedFor(bundle: Bundle, key: string): boolean {
  const set = key.slice(0, key.indexOf(' '));
  return !isConceded(bundle, key, 1) && (set === 'all' || setsLeft(bundle).includes(Number(set)));
}

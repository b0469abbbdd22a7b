import type { Key } from './key.ts';

/** What is known of Enter: when it came last, if no other key came since, and whether one waits to be told from a repeat. */
type LeanState =
  | { readonly enter: 'none' }
  | { readonly enter: 'given'; readonly ms: number }
  | { readonly enter: 'waiting'; readonly ms: number };

export const initialLean: LeanState = { enter: 'none' };

/**
 * Marks the Enters a keyboard repeats while somebody leans on the key, so that leaning ticks one point and not a page of them.
 *
 * Keyboards repeat every 30 to 92 ms (the plain Linux console is the slowest) and a finger needs more than 100 ms from press to
 * press, so an Enter within 100 ms of the one before is held. The first repeat comes alone, 200 to 1100 ms after the press, and
 * looks like a second press: an Enter at that distance waits 100 ms to see whether more follow. Any other Enter passes at once.
 */
export function lean(state: LeanState, key: Key, ms: number): readonly [LeanState, readonly Key[]] {
  const [now, before] = afterLean(state, ms);
  if (key.key !== 'enter') return [initialLean, [...before, ...waitingOf(now), key]];
  const given: LeanState = { enter: 'given', ms };
  if (now.enter === 'none') return [given, [...before, PRESSED]];
  if (now.enter === 'waiting') return [given, [HELD, HELD]];
  const gap = ms - now.ms;
  if (gap < REPEAT) return [given, [...before, HELD]];
  if (gap >= SHORTEST_DELAY && gap <= LONGEST_DELAY) return [{ enter: 'waiting', ms }, before];
  return [given, [...before, PRESSED]];
}

/** When `afterLean` has something to decide; `undefined` when nothing waits. */
export const leanDeadline = (state: LeanState): number | undefined =>
  state.enter === 'waiting' ? state.ms + REPEAT : undefined;

/** Lets a waiting Enter go once nothing followed it: it was a press. */
export function afterLean(state: LeanState, ms: number): readonly [LeanState, readonly Key[]] {
  const deadline = leanDeadline(state);
  if (state.enter !== 'waiting' || deadline === undefined || ms < deadline) return [state, []];
  return [{ enter: 'given', ms: state.ms }, [PRESSED]];
}

const REPEAT = 100;
const SHORTEST_DELAY = 200;
const LONGEST_DELAY = 1100;
const PRESSED: Key = { key: 'enter', held: 'no' };
const HELD: Key = { key: 'enter', held: 'yes' };

const waitingOf = (state: LeanState): readonly Key[] => (state.enter === 'waiting' ? [PRESSED] : []);

import type { Key } from './key.ts';

/** What keys are for at the moment: letters of a field, or commands of a screen. */
export type Hearing = 'text' | 'commands';

/** Text keys held back, the latest first, until it shows whether a device or a person sent them. */
interface BurstState {
  readonly held: Held | undefined;
  /** Text keys that went through at once, one behind the other: a device sent them if an end key follows as fast. */
  readonly passed: Held | undefined;
  /** When the latest held or passed key came. */
  readonly ms: number;
  /** When the latest Enter or Tab came, as far as that still matters. */
  readonly endMs: number;
}

/** A list from its end: adding a key costs the same however many are held. */
interface Held {
  readonly key: Key & { readonly key: 'text' };
  readonly before: Held | undefined;
}

export const initialBurst: BurstState = { held: undefined, passed: undefined, ms: 0, endMs: Number.NEGATIVE_INFINITY };

/**
 * Tells a device from a person: three or more text keys, each under 25 ms after the one before, ended by Enter or Tab, are one
 * `scan`. Everything else comes out as it went in, in order, nothing lost. While a field is open every text key passes at once, and
 * the scan behind them says that they were one. While commands are heard, a text key waits for 25 ms of quiet or for another key. So it
 * does less than 25 ms behind an Enter or Tab, whatever is heard: that key may be about to close the field, and of two scans
 * one behind the other the second must not press keys.
 */
export function collect(
  state: BurstState,
  key: Key,
  ms: number,
  hearing: Hearing,
): readonly [BurstState, readonly Key[]] {
  const [now, before] = afterBurst(state, ms);
  const isBehindEnd = ms - now.endMs < QUIET;
  if (key.key === 'text' && (hearing === 'commands' || isBehindEnd))
    return [{ ...now, held: { key, before: now.held }, ms }, before];
  if (key.key === 'text') {
    const passed = { key, before: ms - now.ms < QUIET ? now.passed : undefined };
    return [{ ...initialBurst, passed, ms }, [...before, ...inOrder(now.held), key]];
  }
  const held = inOrder(now.held);
  if (key.key !== 'enter' && key.key !== 'tab') return [initialBurst, [...before, ...held, key]];
  const ended = { ...initialBurst, endMs: ms };
  if (held.length >= SCAN_LEAST && (hearing === 'commands' || isBehindEnd)) return [ended, [scanOf(held)]];
  const passed = ms - now.ms < QUIET ? inOrder(now.passed) : [];
  if (passed.length >= SCAN_LEAST) return [ended, [...before, ...held, scanOf(passed)]];
  return [ended, [...before, ...held, key]];
}

const scanOf = (keys: readonly Held['key'][]): Key => ({ key: 'scan', text: keys.map((one) => one.text).join('') });

/** When `afterBurst` has something to decide; `undefined` when nothing is held back. */
export const burstDeadline = (state: BurstState): number | undefined => (state.held ? state.ms + QUIET : undefined);

/** Gives out what is held back once it has been quiet for 25 ms: a person typed it. */
export function afterBurst(state: BurstState, ms: number): readonly [BurstState, readonly Key[]] {
  const deadline = burstDeadline(state);
  if (deadline === undefined || ms < deadline) return [state, []];
  return [initialBurst, inOrder(state.held)];
}

const QUIET = 25;
const SCAN_LEAST = 3;

function inOrder(held: Held | undefined): readonly Held['key'][] {
  const keys: Held['key'][] = [];
  for (let one = held; one; one = one.before) keys.push(one.key);
  return keys.reverse();
}

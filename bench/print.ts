import type { Spread } from './measure.ts';

const short = (n: number): string => (n >= 100 ? n.toFixed(0) : n >= 10 ? n.toFixed(1) : n.toFixed(2));

/** One line of the table: a ratio of two things. */
export function ratioLine(what: string, against: string, ratio: Spread, aim: string, runs: string): string {
  return `${what} | ${against} | ${short(ratio.median)} (${short(ratio.least)} to ${short(ratio.most)}) | ${aim} | ${runs}`;
}

export const ms = (spread: Spread): string => `${short(spread.median)} ms`;

import Fraction from 'fraction.js';
import * as z from 'zod/mini';
import type { RoomRatio, RoomThread } from '../thread/room-thread.ts';

/**
 * Ratios that stand where a room says nothing: read on many trade pages that disagree, so the first thing to write over. 401: a page that measured
 * one has 5.4 to 1, 24 % of it the needle's.
 */
const USUAL: Readonly<Record<string, string>> = {
  301: '2.5, needle 50 %, trade pages; the formula with material a quarter as thick as the stitch is long',
  401: '5.5, needle 25 %, trade pages; they differ',
};

/** The thread in `walkfoot.yaml`. */
export const threadShape = {
  /** What is wound on a full bobbin. */
  bobbin: z._default(z.string().check(z.regex(/^(?:off|(?!0+(?:\.0+)? m)\d{1,4}(?:\.\d{1,2})? m)$/)), 'off'),
  /** What of the thread is thrown away. */
  'thread waste': z._default(z.string().check(z.regex(/^\d{1,2}(?:\.\d)? %$/)), '15 %'),
  /** All the thread to a length of seam, by stitch type, of which no seam takes none; 301 by its formula where a procedure says what is sewn through. */
  'thread ratios': z._default(
    z.record(
      z.string().check(z.regex(/^\d{3}$/)),
      z
        .string()
        .check(
          z.regex(
            /^(?!0{1,2}(?:\.0+)?,)\d{1,2}(?:\.\d{1,3})?, needle (?:100|\d{1,2}) %, [^\p{C}\p{Zl}\p{Zp}]{1,120}$/u,
          ),
        ),
    ),
    USUAL,
  ),
};

export const threadExpected: Readonly<Record<string, string>> = {
  'settings.bobbin': 'the metres on a full one, such as 30 m, or off',
  'settings.thread waste': 'per cent, such as 15 %',
  'settings.thread ratios':
    'a stitch type with its ratio, the needle’s share and where it is from, such as 301: 2.5, needle 50 %, measured here',
};

interface ThreadSettings {
  readonly bobbin: string;
  readonly 'thread waste': string;
  readonly 'thread ratios': Readonly<Record<string, string>>;
}

/** The numbers a room reckons its thread by. */
export function roomThread({ bobbin, 'thread waste': waste, 'thread ratios': ratios }: ThreadSettings): RoomThread {
  return {
    bobbin: bobbin === 'off' ? null : numberAt(bobbin, 0).mul(1000),
    waste: numberAt(waste, 0),
    ratios: new Map(Object.entries({ ...USUAL, ...ratios }).map(([stitch, words]) => [stitch, readRatio(words)])),
  };
}

function readRatio(words: string): RoomRatio {
  const [ratio = '', share = '', ...source] = words.split(', ');
  return { ratio: numberAt(ratio, 0), needleShare: numberAt(share, 1), source: source.join(', ') };
}

/** The number that is this word of a text, whose shape was checked. */
const numberAt = (text: string, word: number): Fraction => new Fraction(text.split(' ')[word] ?? '0');

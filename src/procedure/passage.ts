import type { Source } from '../base/source.ts';
import { inlineSpans } from './inline-spans.ts';

/** A piece of text that still knows where in the source each of its characters stands. */
export interface Passage {
  readonly text: string;
  /** Source offset of each character, and one more for the end. */
  readonly origin: readonly number[];
}

/**
 * The words between two offsets as one line: line breaks become spaces, the indentation and the `>` of up to `quotes`
 * blockquotes at the start of each further line go, and so do HTML comments.
 */
export function passageOf(source: Source, from: number, to: number, quotes = 0): Passage {
  const text: string[] = [];
  const origin: number[] = [];
  const { comments } = inlineSpans(source.text.slice(from, to));
  let at = from;
  let comment = 0;
  while (at < to) {
    const next = comments[comment];
    if (next && at >= from + next.start) {
      at = Math.max(at, from + next.end);
      comment += 1;
      continue;
    }
    // As much of the line as no comment interrupts, in one piece.
    const newline = source.text.indexOf('\n', at);
    const stop = Math.min(next ? from + next.start : to, to, newline === -1 ? to : newline);
    text.push(source.text.slice(at, stop));
    for (; at < stop; at += 1) origin.push(at);
    if (at !== newline || at >= to) continue;
    text.push(' ');
    origin.push(at);
    at = skipPrefix(source.text, at + 1, to, quotes);
  }
  origin.push(to);
  return { text: text.join(''), origin };
}

/** The same text, character by character, as it stands in the file. */
export function verbatim(source: Source, from: number, to: number): Passage {
  const origin: number[] = [];
  for (let at = from; at <= to; at += 1) origin.push(at);
  return { text: source.text.slice(from, to), origin };
}

export function cut(passage: Passage, from: number, to: number = passage.text.length): Passage {
  return { text: passage.text.slice(from, to), origin: passage.origin.slice(from, to + 1) };
}

export function trim(passage: Passage): Passage {
  const start = passage.text.length - passage.text.trimStart().length;
  return cut(passage, start, Math.max(start, passage.text.trimEnd().length));
}

export function join(passages: readonly Passage[]): Passage {
  const origin = passages.flatMap((passage) => passage.origin.slice(0, -1));
  origin.push(passages.at(-1)?.origin.at(-1) ?? 0);
  return { text: passages.map((passage) => passage.text).join(''), origin };
}

/** Source offset of a character of the passage. */
export function originOf(passage: Passage, index: number): number {
  return passage.origin[Math.min(index, passage.origin.length - 1)] ?? 0;
}

function skipPrefix(text: string, from: number, to: number, quotes: number): number {
  let at = from;
  let left = quotes;
  while (at < to) {
    const character = text.charAt(at);
    if (character === '>' && left > 0) left -= 1;
    else if (character !== ' ' && character !== '\t') break;
    at += 1;
  }
  return at;
}

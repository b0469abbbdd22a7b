import { distance } from 'fastest-levenshtein';
import type { Blockquote, Paragraph } from 'mdast';
import { placeOf } from '../base/source.ts';
import { nearest } from './nearest.ts';
import { passageOf } from './passage.ts';
import { plainText } from './plain-text.ts';
import type { Caution, SignalWord } from './procedure.ts';
import type { Reading } from './reading.ts';
import { insertValues } from './values.ts';

/** The four signal words of ANSI Z535.6 and ISO 3864-2. */
export const SIGNAL_WORDS: readonly SignalWord[] = ['DANGER', 'WARNING', 'CAUTION', 'NOTICE'];

/** A line of a blockquote that begins like a caution; `word` is what stands where a signal word belongs. */
export interface SignalLine {
  readonly word: string;
  readonly rest: string;
  readonly isBold: boolean;
}

/** Reads the start of a line, after its `>`: `**WARNING** …`, also `**WARNING:** …` and `**WARNING Needle.** …`. */
export function signalLine(line: string): SignalLine | undefined {
  const bold = /^\s*(\*\*|__)\s*([\p{L}]+)\s*[:.!]?(?:\s*\1|\s+(?=[^*_]*\1))\s*[:.!]?\s*/u.exec(line);
  if (bold) return { word: bold[2] ?? '', rest: line.slice(bold[0].length), isBold: true };
  const plain = /^(?:[\s\p{S}\p{P}]|\uFE0F)*?\b(DANGER|WARNING|CAUTION|NOTICE)\b[*_:.!]*\s*|^\s*\[!(\w+)\]\s*/u.exec(
    line,
  );
  return plain ? { word: plain[1] ?? plain[2] ?? '', rest: line.slice(plain[0].length), isBold: false } : undefined;
}

interface CautionDraft {
  readonly word: SignalWord;
  readonly at: number;
  readonly parts: { readonly from: number; readonly to: number }[];
}

/** Reads a blockquote. Empty when it is ordinary text; each line that begins with a bold signal word begins a caution. */
export function readCautions(quote: Blockquote, reading: Reading): readonly Caution[] {
  const drafts: CautionDraft[] = [];
  for (const block of quote.children) {
    const from = block.position?.start.offset ?? 0;
    const to = block.position?.end.offset ?? from;
    if (block.type === 'paragraph') readLines(block, from, to, drafts, reading);
    else drafts.at(-1)?.parts.push({ from, to });
  }
  return drafts.map(({ word, at, parts }) => {
    const texts = parts.map(({ from, to }) => insertValues(passageOf(reading.source, from, to, 1), reading).text);
    const text = plainText(texts.join(' ').replace(/\*\*/g, ''));
    if (text === '') {
      reading.note({
        rule: 'caution-empty',
        at,
        message: `${word} stands here without saying of what.`,
        found: word,
        mend: 'Write the hazard, what it does, and how to avoid it.',
      });
    }
    return { word, text, line: placeOf(reading.source, at).line };
  });
}

function readLines(paragraph: Paragraph, from: number, to: number, drafts: CautionDraft[], reading: Reading): void {
  let at = from;
  let isFirst = paragraph.position !== undefined && drafts.length === 0;
  for (const line of reading.source.text.slice(from, to).split('\n')) {
    const prefix = /^(?:\s*>)?\s*/.exec(line)?.[0].length ?? 0;
    const words = line.slice(prefix);
    const signal = signalLine(words);
    const known = signal && SIGNAL_WORDS.find((word) => word === signal.word);
    const end = at + line.length;
    if (signal && known && signal.isBold) {
      drafts.push({ word: known, at: at + prefix, parts: [{ from: end - signal.rest.length, to: end }] });
    } else {
      if (signal && (isFirst || known)) noteOdd(signal, at + prefix, words, reading);
      drafts.at(-1)?.parts.push({ from: at + prefix, to: end });
    }
    isFirst = false;
    at = end + 1;
  }
}

function noteOdd(signal: SignalLine, at: number, words: string, { note }: Reading): void {
  const isShouted = signal.word.length > 1 && signal.word === signal.word.toUpperCase();
  const slip = SIGNAL_WORDS.find((word) => distance(word, signal.word.toUpperCase()) < 2);
  if (slip === undefined && !isShouted) return;
  const near = slip ?? ALIKE.get(signal.word) ?? nearest(signal.word, SIGNAL_WORDS);
  const isRight = SIGNAL_WORDS.some((word) => word === signal.word) && !signal.isBold;
  note({
    rule: isRight ? 'signal-word-not-bold' : 'signal-word-unknown',
    at,
    message: isRight
      ? 'This looks like a caution, but its signal word is not bold.'
      : `${signal.word} is no signal word.`,
    found: words,
    mend: near
      ? `Write > **${near}** and then the words.`
      : `Write > and one of **${SIGNAL_WORDS.join('**, **')}**, then the words.`,
  });
}

/** Words that people write for a signal word. */
const ALIKE: ReadonlyMap<string, SignalWord> = new Map([
  ['NOTE', 'NOTICE'],
  ['IMPORTANT', 'NOTICE'],
  ['ATTENTION', 'CAUTION'],
  ['ACHTUNG', 'CAUTION'],
  ['WARN', 'WARNING'],
  ['GEFAHR', 'DANGER'],
]);

import type { PointId } from '../base/brand.ts';
import { type AfterBlank, readAfterBlank } from './after-blank.ts';
import { beforeBlank } from './before-blank.ts';
import { findBlanks } from './blanks.ts';
import type { Formula } from './formula.ts';
import { slug, takePin } from './ids.ts';
import { type CodeSpan, codeWords, inlineSpans, withoutCode } from './inline-spans.ts';
import { cut, originOf, type Passage, trim } from './passage.ts';
import { plainText } from './plain-text.ts';
import type { PointDraft } from './point-draft.ts';
import type { Point } from './procedure.ts';
import { readFormula } from './read-formula.ts';
import type { Reading } from './reading.ts';
import { isTick } from './ticks.ts';
import { insertValues } from './values.ts';

/** Reads the words after the box of a task item. `undefined` when something in it could not be read; that is noted. */
export function readPoint(item: Passage, line: number, reading: Reading): PointDraft | undefined {
  const { passage: unpinned, pin } = takePin(item, reading);
  const passage = trim(insertValues(unpinned, reading));
  const { codes } = inlineSpans(passage.text);
  const signs = withoutCode(passage.text, codes);
  const start = originOf(passage, 0);
  if (passage.text.length > LONGEST) {
    const mend = 'Ask for one thing, and put the rest as text above the points.';
    return say(reading, 'point-too-long', start, 'This point is longer than a person will read.', passage.text, mend);
  }
  const hold = HOLD_POINT.exec(signs);
  const { blanks, malformed } = findBlanks(signs);
  if (malformed) {
    const found = passage.text.slice(malformed.start, malformed.end);
    const mend = 'Write ____ (four underscores) for each blank.';
    return say(
      reading,
      'blank-malformed',
      originOf(passage, malformed.start),
      'This looks like a blank and is none.',
      found,
      mend,
    );
  }
  const first = blanks[0];
  const last = blanks.at(-1);
  const base = (words: string): Words => ({ words, line, pin, at: start, reading });
  if (first === undefined || last === undefined) {
    if (hold) return readHoldPoint(cut(passage, hold[0].length), base);
    return isTick(passage, signs, codes, reading) ? draft({ kind: 'tick' }, base(passage.text)) : undefined;
  }
  if (hold) {
    const mend = 'Make two points of it: the reading, and the hold point.';
    const message = 'A hold point is signed, so it cannot have a blank as well.';
    return say(reading, 'hold-point-with-blank', originOf(passage, first.start), message, passage.text, mend);
  }
  for (const [index, blank] of blanks.entries()) {
    const next = blanks[index + 1];
    if (next === undefined || signs.slice(blank.end, next.start).trim() === '') continue;
    const between = passage.text.slice(blank.end, next.start);
    const mend = 'Write the blanks side by side for several places, or make two points of it.';
    return say(
      reading,
      'text-between-blanks',
      originOf(passage, blank.end),
      'There are words between two blanks.',
      between,
      mend,
    );
  }
  const after = readAfterBlank(cut(passage, last.end), reading);
  if (after === undefined) return undefined;
  const misplaced = beforeBlank(signs.slice(0, first.start), after);
  if (misplaced) {
    const { rule, index, message, found, mend } = misplaced;
    return say(reading, rule, originOf(passage, index), message, found, mend);
  }
  const before = splitBefore(passage, signs.slice(0, first.start), codes, reading);
  return before && assemble(before, after, blanks.length, passage, first.start, base);
}

/** Points of more characters are refused. */
const LONGEST = 600;
const HOLD_POINT = /^(\*\*|__)[ ]*hold[ ]+point[ ]*:?[ ]*\1[ ]*:?/i;
const NAME = /^[\p{L}][\p{L}\p{N}_]*$/u;

interface Words {
  readonly words: string;
  readonly line: number;
  readonly pin: string | null;
  readonly at: number;
  readonly reading: Reading;
}

function say(reading: Reading, rule: string, at: number, message: string, found: string, mend: string): undefined {
  reading.note({ rule, at, message, found, mend });
  return undefined;
}

type WithoutBase<T> = T extends Point ? Omit<T, 'id' | 'text' | 'line'> : never;

function draft(
  point: WithoutBase<Point>,
  { words, line, pin, at, reading }: Words,
  more: Partial<PointDraft> = {},
): PointDraft | undefined {
  const text = plainText(words).replace(/\s*[:=]$/, '');
  if (text === '') {
    const mend = 'Say what is to be done or measured, such as - [ ] Sleeve bore, laid flat ____ mm (27 +2/-0).';
    return say(reading, 'point-empty', at, 'This point does not say what is asked.', words, mend);
  }
  const id = (pin ?? slug(text)) as PointId;
  return { point: { id, text, line, ...point }, at, name: null, formulaAt: null, formulaText: '', ...more };
}

function readHoldPoint(rest: Passage, base: (words: string) => Words): PointDraft | undefined {
  return draft({ kind: 'hold point' }, base(rest.text));
}

interface Before {
  readonly words: string;
  readonly name: { readonly text: string; readonly at: number } | null;
  readonly formula: { readonly value: Formula; readonly text: string; readonly at: (index: number) => number } | null;
}

/** Takes apart what stands before the first blank: words, the name, and the formula with its `=`. */
function splitBefore(
  passage: Passage,
  signs: string,
  codes: readonly CodeSpan[],
  reading: Reading,
): Before | undefined {
  const equals = /\s*=\s*$/.exec(signs);
  const end = equals ? equals.index : signs.trimEnd().length;
  const last = codes.findLast((code) => code.end <= signs.length);
  const span = last?.end === end ? last : undefined;
  if (!equals) return { words: passage.text.slice(0, end), name: span ? nameOf(passage, span) : null, formula: null };
  if (span === undefined) {
    const mend = 'Write the formula between backticks, such as `|d1 - d2|` = ____ mm (max 4).';
    return say(
      reading,
      'formula-missing',
      originOf(passage, equals.index),
      'There is an = here without a formula before it.',
      passage.text.slice(0, signs.length),
      mend,
    );
  }
  const text = codeWords(passage.text, span);
  const start = passage.text.indexOf(text, span.start + span.fence);
  const formula = readFormula(text);
  if (!formula.ok) {
    const mend = 'Use names of readings, numbers, + - * /, round brackets and |size|.';
    return say(reading, formula.error.rule, originOf(passage, start), formula.error.message, text, mend);
  }
  const wordsEnd = signs.slice(0, span.start).trimEnd().length;
  const named = codes.find((code) => code.end === wordsEnd && code !== span);
  return {
    words: wordsEnd === 0 ? text : passage.text.slice(0, wordsEnd),
    name: named ? nameOf(passage, named) : null,
    formula: { value: formula.value, text, at: (index) => originOf(passage, start + index) },
  };
}

function nameOf(passage: Passage, span: CodeSpan): { readonly text: string; readonly at: number } {
  return { text: codeWords(passage.text, span), at: originOf(passage, span.start) };
}

function assemble(
  before: Before,
  after: AfterBlank,
  places: number,
  passage: Passage,
  blankAt: number,
  base: (words: string) => Words,
): PointDraft | undefined {
  const words = base(before.words);
  const { reading } = words;
  const { formula, name } = before;
  const isQuantity = after.is === 'quantity';
  if (places > 1 && (formula || !isQuantity || isTime(after.unit))) {
    const mend = 'Leave one blank, or make a point of each.';
    return say(
      reading,
      'several-blanks',
      originOf(passage, blankAt),
      'Only a reading or a count can have several blanks.',
      passage.text.slice(blankAt),
      mend,
    );
  }
  if (formula && !isQuantity) {
    const mend = 'Write the unit after the blank, such as ____ mm (max 4).';
    return say(
      reading,
      'unit-missing',
      originOf(passage, blankAt),
      'A computed value needs a unit.',
      passage.text.slice(blankAt),
      mend,
    );
  }
  if (name && isQuantity && !NAME.test(name.text)) {
    const mend = 'Begin the name with a letter and use only letters, digits and _, such as `d1`.';
    return say(reading, 'name-unreadable', name.at, 'A formula cannot use this name.', name.text, mend);
  }
  if (after.is === 'written') return draft({ kind: 'written' }, words, { name });
  if (after.is === 'choice') return draft({ kind: 'choice', options: after.options }, words, { name });
  const { unit, limit, measures } = after;
  if (measures.length > 0 && formula) {
    const mend = 'Leave out of and what follows: a computed value is not measured.';
    const message = 'What is worked out is no length of the drawing.';
    return say(reading, 'measure-no-length', originOf(passage, blankAt), message, measures.join(', '), mend);
  }
  if (measures.length > 1 && measures.length !== places) {
    const mend = 'Name one length for all places, or one for each blank.';
    const message = `There are ${places} blanks and ${measures.length} lengths of the drawing.`;
    return say(reading, 'measures-uneven', originOf(passage, blankAt), message, measures.join(', '), mend);
  }
  const named = { name: name?.text ?? null, limit };
  if (formula) {
    const more = { name, formulaAt: formula.at, formulaText: formula.text };
    return draft({ kind: 'computed', formula: formula.value, unit, ...named }, words, more);
  }
  if (unit === 'pcs') return draft({ kind: 'count', unit, places, ...named }, words, { name });
  if (isTime(unit)) return draft({ kind: 'timed', unit, ...named }, words, { name });
  const drawn = measures.length > 0 ? { measures } : {};
  return draft({ kind: 'reading', unit, places, ...named, ...drawn }, words, { name });
}

const isTime = (unit: string): unit is 's' | 'min' | 'h' => unit === 's' || unit === 'min' || unit === 'h';

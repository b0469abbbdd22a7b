import { readLimit } from '../measure/limit.ts';
import { findUnit } from '../measure/unit.ts';
import { type CodeSpan, codeWords, FILLER } from './inline-spans.ts';
import { originOf, type Passage } from './passage.ts';
import type { Reading } from './reading.ts';

/**
 * Whether a point without a blank really is a tick, and not something whose blank was forgotten or drawn some other way; that is
 * noted. `signs` is its text with the code spans blanked out.
 */
export function isTick(passage: Passage, signs: string, codes: readonly CodeSpan[], { note }: Reading): boolean {
  const say = (rule: string, index: number, message: string, found: string, mend: string): false => {
    note({ rule, at: originOf(passage, index), message, found, mend });
    return false;
  };
  const nearHold = /^[*_\s]*hold[ -]?point\b[*_]*|^[*_]{1,2}hold[*_]{1,2}/i.exec(signs);
  if (nearHold) {
    const mend = 'Write - [ ] **Hold point** and what is looked over.';
    return say('hold-point-near-miss', 0, 'This looks like a hold point and is none.', nearHold[0], mend);
  }
  const equals = new RegExp(`${FILLER}\\s*=`).exec(signs);
  if (equals && codes.length > 0) {
    const found = passage.text.slice(equals.index);
    const message = 'There is no blank for the computed value.';
    return say('blank-missing', equals.index + 1, message, found, 'Write ____ and the unit after the =.');
  }
  const code = codes.find((span) => /^_{2,}$/.test(codeWords(passage.text, span)));
  if (code) {
    const message = 'A blank between backticks is only shown, not asked.';
    const found = passage.text.slice(code.start, code.end);
    return say('blank-malformed', code.start, message, found, 'Write ____ without the backticks.');
  }
  const leader = LEADER.exec(signs);
  if (leader && (/^[.…\-–—]{4}/.test(leader[1] ?? '') || findUnit(leader[2] ?? ''))) {
    const mend = 'Write ____ (four underscores) for each blank.';
    return say('blank-malformed', leader.index, 'This looks like a blank and is none.', leader[0].trim(), mend);
  }
  const bracket = /(?:(\S+)\s*)?[([]([^()[\]]*)[)\]][\s.]*$/.exec(signs);
  if (bracket && wantsBlank(bracket[2] ?? '', bracket[1] ?? '')) {
    const message = 'A limit or a choice stands here, but there is no blank for the answer.';
    return say(
      'blank-missing',
      bracket.index,
      message,
      bracket[0],
      'Write ____ before the unit, or before the options.',
    );
  }
  const tolerance = /\d[\d.,]*\s*(?:±|\+\s?\/\s?-)\s*\d/.exec(signs);
  if (tolerance) {
    const message = 'A tolerance stands here, but nothing is measured: this point is only ticked.';
    const mend = 'Write ____, the unit and the limit in brackets if it is to be measured.';
    const at = originOf(passage, tolerance.index);
    note({ rule: 'tick-with-tolerance', at, message, found: passage.text, mend, severity: 'warning' });
  }
  return true;
}

/** Dots, dashes or empty brackets where a blank would be, at the end or before the last word. */
const LEADER = /(\.{3,}|…+|[-–—]{2,}|\(\s*\))[ ]*([^\s.…()–—-]*)(?:\s*\([^()]*\))?\s*$/;

function wantsBlank(inside: string, before: string): boolean {
  if (/±|\+\s?\/\s?-|\d\s*\+\s?\d[^/]*\/?\s*[-−–]\s?\d/.test(inside)) return true;
  if (/\*\*[^*]+\*\*\s*\/|\/\s*\*\*[^*]+\*\*/.test(inside)) return true;
  const unit = findUnit(before);
  const looksLimited = unit && (readLimit(inside, unit).ok || /\d/.test(inside));
  return Boolean(looksLimited) && /\bto\b|[+/-]\s*\d|\bmax\b|\bmin\b|^\s*[\d.,]+\s*$/i.test(inside);
}

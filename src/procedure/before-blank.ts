import { findUnit } from '../measure/unit.ts';
import type { AfterBlank } from './after-blank.ts';

interface Misplaced {
  readonly rule: string;
  readonly index: number;
  readonly message: string;
  readonly found: string;
  readonly mend: string;
}

/** A unit or a limit just before the first blank, where it would be taken for words. */
export function beforeBlank(words: string, { is }: AfterBlank): Misplaced | undefined {
  const limit = /[([]([^()[\]]*)[)\]]\s*$/.exec(words);
  if (limit && is !== 'choice' && LIMIT.test(limit[1] ?? '')) {
    const message = 'The limit stands before the blank, so no reading would be held against it.';
    const mend = 'Write it behind the blank and its unit, such as ____ mm (312 ±1.5).';
    return { rule: 'limit-before-blank', index: limit.index, message, found: limit[0].trim(), mend };
  }
  const symbol = is === 'written' ? (/(?:^|\s)[([]?([^\s()[\]]+)[)\]]?\s*$/.exec(words)?.[1] ?? '') : '';
  if (UNMISTAKABLE.test(symbol) && findUnit(symbol)) {
    const message = 'The unit stands before the blank, so no number would be asked.';
    const index = words.lastIndexOf(symbol);
    return {
      rule: 'unit-before-blank',
      index,
      message,
      found: symbol,
      mend: `Write it behind the blank: ____ ${symbol}.`,
    };
  }
  return undefined;
}

const LIMIT =
  /\d\s*(?:±|\+\s?\/?\s?-)|\d\s*\+\s?\d.*[-−–]\s?\d|^\s*(?:max|min)(?:imum)?\.?\s*\d|^\s*[\d.,]+\s+to\s+[\d.,]+/i;
/** Units that are no words of a sentence, as `in`, `pieces` and `m` may be. */
const UNMISTAKABLE = /^(?:mm|cm|kg|kPa|°C|°F|%|pcs|min|spi|st\/\d+mm)$/;

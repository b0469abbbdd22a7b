import { findUnit } from '../measure/unit.ts';
import { originOf, type Passage } from './passage.ts';
import { plainText } from './plain-text.ts';
import type { Choice } from './procedure.ts';
import type { Reading } from './reading.ts';

/** Reads `**match** / lighter / darker`: the acceptable ones bold; none bold means that all are acceptable. */
export function readOptions(inside: Passage, { note }: Reading): Choice['options'] | undefined {
  const say = (rule: string, message: string, mend: string): undefined => {
    note({ rule, at: originOf(inside, 0), message, found: inside.text, mend });
    return undefined;
  };
  if (findUnit(inside.text)) {
    return say(
      'unit-in-brackets',
      'The unit stands in brackets.',
      `Write it right after the blank: ____ ${inside.text}.`,
    );
  }
  const parts = inside.text.split(/\s\/\s/.test(inside.text) ? /\s+\/\s+/ : '/').map((part) => part.trim());
  if (parts.length < 2) {
    return say(
      'choice-one-option',
      'A choice needs at least two options.',
      'Write them with slashes, such as (**match** / lighter / darker).',
    );
  }
  const read = parts.map((part) => {
    const bold = /^(\*\*|__)(?=\S)(.*\S)\1$/.exec(part);
    return { text: plainText(bold?.[2] ?? part), isBold: bold !== null, isOdd: /\*|__/.test(bold?.[2] ?? part) };
  });
  if (read.some(({ text }) => text === '')) {
    return say('choice-empty-option', 'One of the options is empty.', 'Write words on both sides of each slash.');
  }
  if (read.some(({ isOdd }) => isOdd)) {
    return say(
      'choice-unreadable',
      'Stars do not stand around whole options here.',
      'Make each acceptable option bold by itself, such as (**match** / **near** / off).',
    );
  }
  if (new Set(read.map(({ text }) => text.toLowerCase())).size < read.length) {
    return say('choice-twice', 'The same option stands here twice.', 'Keep each option once.');
  }
  const anyBold = read.some(({ isBold }) => isBold);
  return read.map(({ text, isBold }) => ({ text, acceptable: isBold || !anyBold }));
}

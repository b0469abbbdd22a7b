import type { Reading } from './reading.ts';

/**
 * Notes words that are struck through. A plain screen, a point and the paper of another program show them without the line, and then they
 * say the opposite. `shown` is the text of the file, character by character, without code and comments.
 */
export function noteStruckWords(shown: string, note: Reading['note']): void {
  for (const { 0: found, index } of shown.matchAll(STRUCK))
    note({
      rule: 'struck-words',
      at: index,
      message: 'These words are struck through, and are read as if they were not.',
      found,
      mend: 'Take them out, and write what is to be done.',
    });
}

/** GitHub Flavored Markdown, section 6.5: one or two tildes, no space inside next to them, within one paragraph; or its HTML. */
const STRUCK =
  /(?<![\\~])~~(?=[^\s~])(?:[^~\n]|~(?!~)|\n(?![ \t>]*\n))*(?<=[^\s~])~~(?!~)|(?<![\\~])~(?=[^\s~])(?:[^~\n]|\n(?![ \t>]*\n))*(?<=[^\s~])~(?!~)|<(?:del|s|strike)\b[^>\n]*>/giu;

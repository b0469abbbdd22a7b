import type { Reading } from './reading.ts';

/** Notes characters that print nothing, reorder what is printed, or are no characters at all. */
export function noteHiddenCharacters({ source, note }: Reading): void {
  let noted = 0;
  for (const { 0: character, index } of source.text.matchAll(HIDDEN)) {
    noted += 1;
    if (noted > MOST) return;
    const code = character.codePointAt(0) ?? 0;
    const number = `U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
    const more = noted === MOST ? ' There may be more of them behind this one.' : '';
    note({
      rule: 'hidden-character',
      at: index,
      message: `A hidden character, ${number} (${nameOf(code)}), stands here.${more}`,
      found: number,
      mend: 'Delete it and type the words around it again.',
    });
  }
}

/** Whether there is any in this text. */
export const hidesCharacters = (text: string): boolean => text.search(HIDDEN) >= 0;

const MOST = 50;
/** Joiners between letters or emoji belong to some scripts and stay; everything else here is invisible or misleading. */
const HIDDEN = /(?!\t|\n|\u200C|\u200D|\u00AD)[\p{Cc}\p{Cs}\p{Cf}\p{Zl}\p{Zp}]/gu;

const NAMES: ReadonlyMap<number, string> = new Map([
  [0x00, 'null'],
  [0x07, 'bell'],
  [0x08, 'backspace'],
  [0x1b, 'escape'],
  [0x7f, 'delete'],
  [0x061c, 'Arabic letter mark'],
  [0x200b, 'zero width space'],
  [0x200e, 'left-to-right mark'],
  [0x200f, 'right-to-left mark'],
  [0x2028, 'line separator'],
  [0x2029, 'paragraph separator'],
  [0x202a, 'left-to-right embedding'],
  [0x202b, 'right-to-left embedding'],
  [0x202c, 'pop directional formatting'],
  [0x202d, 'left-to-right override'],
  [0x202e, 'right-to-left override'],
  [0x2060, 'word joiner'],
  [0x2066, 'left-to-right isolate'],
  [0x2067, 'right-to-left isolate'],
  [0x2068, 'first strong isolate'],
  [0x2069, 'pop directional isolate'],
  [0xfeff, 'byte order mark'],
]);

function nameOf(code: number): string {
  const known = NAMES.get(code);
  if (known !== undefined) return known;
  if (code < 0x20 || (code > 0x7f && code < 0xa0)) return 'control character';
  return code >= 0xd800 && code <= 0xdfff ? 'half of a surrogate pair' : 'format character';
}

import { columns, graphemes } from './columns.ts';

const ELLIPSIS = '…';

/**
 * Text from outside made safe to print: whatever a terminal would obey, and whatever would hide or reorder words, becomes
 * a visible mark. `\n` stays, CR LF becomes `\n`, and a tab becomes one space, so that a column count always holds.
 *
 * - C0 controls and DEL become their control pictures: ESC is `␛`.
 * - C1 controls, bidi controls, zero-width and other format characters, fillers, line and paragraph separators and lone
 *   surrogates become their number: `⟨U+202E⟩`.
 * - The variation selectors 15 and 16 stay behind a character that may be an emoji. A zero-width joiner does not stay: terminals
 *   disagree about the width of joined emoji, and a joiner between letters can make two names look alike.
 */
export function showHidden(text: string): string {
  return text.replace(/\r\n/g, '\n').replace(/\t/g, ' ').replace(HIDDEN, markOf);
}

const KEPT_SELECTOR = String.raw`(?<=\p{Emoji})[\uFE0E\uFE0F]`;
const HIDDEN = new RegExp(
  String.raw`(?!${KEPT_SELECTOR}|\n)[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]`,
  'gu',
);

function markOf(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x20) return String.fromCodePoint(0x2400 + code);
  if (code === 0x7f) return '␡';
  return `⟨U+${code.toString(16).toUpperCase().padStart(4, '0')}⟩`;
}

/** `showHidden` for a place with one row: every line break becomes a space too. */
export const oneLine = (text: string): string => showHidden(text).replaceAll('\n', ' ');

/** The text in at most `width` columns; what was cut off leaves `…` in the last of them. No text fits in less than one column. */
export function cut(text: string, width: number): string {
  if (width < 1) return '';
  let used = 0;
  let room = '';
  for (const segment of graphemes(text)) {
    const next = used + columns(segment);
    if (next > width) return room + ELLIPSIS;
    if (next <= width - 1) room += segment;
    used = next;
  }
  return text;
}

/** Exactly `width` columns: cut when too long, spaces behind when too short. */
export function pad(text: string, width: number): string {
  const short = cut(text, width);
  return short + ' '.repeat(Math.max(0, width - columns(short)));
}

/** Exactly `width` columns: cut when too long, spaces in front when too short. */
export function padStart(text: string, width: number): string {
  const short = cut(text, width);
  return ' '.repeat(Math.max(0, width - columns(short))) + short;
}

/**
 * The text in rows of at most `width` columns (1 or more), broken at spaces, and inside a word only when the word is longer than
 * a row. Line breaks of the text stay, spaces where a row begins or ends go. A character wider than a row becomes `…`.
 */
export function wrap(text: string, width: number): readonly string[] {
  const narrow = Math.max(1, width);
  return text.split('\n').flatMap((line) => rowsOf(line, narrow));
}

function rowsOf(line: string, width: number): readonly string[] {
  const rows: string[] = [];
  let row = '';
  let used = 0;
  const turn = (): void => {
    rows.push(row.trimEnd());
    row = '';
    used = 0;
  };
  for (const word of line.trim().split(/( +)/)) {
    const wide = columns(word);
    if (used + wide > width && row !== '') turn();
    if (row === '' && word.startsWith(' ')) continue;
    const pieces = wide > width ? graphemes(word) : [word];
    for (const piece of pieces) {
      const fits = columns(piece) <= width ? piece : ELLIPSIS;
      if (used + columns(fits) > width) turn();
      row += fits;
      used += columns(fits);
    }
  }
  turn();
  return rows;
}

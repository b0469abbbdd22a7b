import { eastAsianWidth } from 'get-east-asian-width';

/**
 * Terminal columns of one row of text: 2 for the classes W and F of UAX #11 and for emoji, 0 for marks that stand on the letter
 * before them and for what does not print, 1 for the rest, ambiguous ones too. A test holds that it agrees with the library by
 * which the screen library lays out; that one takes longer to load than a short command takes to run.
 */
export function columns(text: string): number {
  if (NARROW.test(text)) return text.length;
  let sum = 0;
  for (const { segment } of segmenter().segment(text))
    sum += ofGrapheme(JAMO.test(segment) ? segment.normalize('NFC') : segment);
  return sum;
}

/** The text as a person counts characters: extended grapheme clusters of UAX #29. */
export const graphemes = (text: string): readonly string[] =>
  NARROW.test(text) ? text.split('') : Array.from(segmenter().segment(text), (one) => one.segment);

/** Scripts and signs of one column and one UTF-16 unit, none of which joins another: most of what a workroom writes. */
const NARROW = /^[ -~¡-¬®-˿\u0370-\u0377Α-ҁ\u2010-\u2027\u2030-\u205e←-⋿␀-␦─-◼✓✗]*$/;

/** Made when first needed: it loads tables that most rows never ask for. */
const segmenter = (): Intl.Segmenter => (made ??= new Intl.Segmenter('en', { granularity: 'grapheme' }));
let made: Intl.Segmenter | undefined;

const UNSEEN = /[\p{Default_Ignorable_Code_Point}\p{Cc}\p{Cf}\p{Mn}\p{Me}\p{Cs}]/u;
const SPACING = /[\p{Mc}\uff00-\uffef]/u;
/** A picture by its selector, a flag, a key cap, or two pictures joined. */
const EMOJI =
  /^(?:\p{Emoji}\ufe0f.*|\p{Regional_Indicator}{2}|[\d#*]\u20e3|.*\p{Extended_Pictographic}.*\u200d\p{Extended_Pictographic}.*)$/u;

/** Letters of a Korean syllable, which a terminal shows as the one syllable they make. */
const JAMO = /[\u1100-\u11ff\ua960-\ua97f\ud7b0-\ud7ff]/;

function ofGrapheme(grapheme: string): number {
  if (EMOJI.test(grapheme)) return 2;
  let sum = 0;
  for (const character of grapheme) {
    if (UNSEEN.test(character)) continue;
    if (sum === 0 || SPACING.test(character)) sum += eastAsianWidth(character.codePointAt(0) ?? 0);
  }
  return sum;
}

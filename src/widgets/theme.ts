import type { TextProps } from 'ink';
import type { Style } from './row.ts';

/** How a piece of text looks: the part of Ink's text properties that changes no layout. */
type Look = Pick<
  TextProps,
  'color' | 'backgroundColor' | 'bold' | 'italic' | 'underline' | 'strikethrough' | 'inverse'
>;

/** The look of half blocks of grey; none where there are no greys. 24 of them are colours 232 to 255 of the usual 256. */
export const greyLook = (
  theme: Theme,
  { over, under }: { readonly over: number; readonly under: number },
): Look | null =>
  theme !== inColour ? null : { color: `ansi256(${232 + over})`, backgroundColor: `ansi256(${232 + under})` };

/** One look for each meaning. */
export type Theme = Readonly<Record<Style, Look>>;

/**
 * The theme the environment asks for: without any colour where `NO_COLOR` is set and not empty (no-color.org), else in as many as the
 * terminal has: `level` 1 is sixteen, 2 is 256, 3 is millions.
 */
export function themeFor(environment: Readonly<Record<string, string | undefined>>, level: 0 | 1 | 2 | 3): Theme {
  if (environment.NO_COLOR) return withoutColour;
  return level <= 1 ? inSixteen : inColour;
}

/**
 * Nothing but bold, underline, italic and reverse: for `NO_COLOR`. The attribute "dim" is missing on purpose: many
 * terminals make it too faint to read from a metre away.
 */
export const withoutColour: Theme = {
  plain: {},
  dim: {},
  bright: { bold: true },
  strong: { bold: true },
  emphasis: { underline: true },
  code: {},
  struck: { strikethrough: true },
  good: {},
  bad: { bold: true, inverse: true },
  reverse: { inverse: true },
  danger: { bold: true, inverse: true },
  warning: { bold: true, inverse: true },
  caution: { bold: true, inverse: true },
  notice: { bold: true, inverse: true },
};

/**
 * The four signal words as ISO 3864 and ANSI Z535 pair them (white on red, black on orange, black on yellow, white on blue);
 * no other meaning uses a safety colour. The numbers stay red, yellow and blue, and letters stay apart from their ground,
 * when the terminal has sixteen colours and they are brought down to those. Grey 244 keeps a contrast of at least 3.9
 * on black and on white.
 */
export const inColour: Theme = {
  ...withoutColour,
  dim: { color: 'ansi256(244)' },
  emphasis: { italic: true, underline: true },
  code: { color: 'cyan' },
  good: { color: 'cyan' },
  danger: { color: 'ansi256(231)', backgroundColor: 'ansi256(124)', bold: true },
  warning: { color: 'ansi256(16)', backgroundColor: 'ansi256(208)' },
  caution: { color: 'ansi256(16)', backgroundColor: 'ansi256(220)' },
  notice: { color: 'ansi256(231)', backgroundColor: 'ansi256(25)', bold: true },
};

/** Of sixteen colours none is a grey that can be read on black and on white: brought down to them, grey would be white. */
const inSixteen: Theme = { ...inColour, dim: {} };

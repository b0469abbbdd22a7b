import { assertNever } from '../base/assert-never.ts';
import { graphemes } from '../base/columns.ts';
import { fillRow, indentRow, type Row, rowColumns, type Style, span } from './row.ts';
import { wrapRow } from './wrap-row.ts';

/** The signal words of ANSI Z535.6 and ISO 3864-2. */
export type SignalWord = 'DANGER' | 'WARNING' | 'CAUTION' | 'NOTICE';

/** A caution and the room for it. */
export interface Caution {
  readonly word: SignalWord;
  /** The word in the reader's language; the colours and the sign are the word's own. */
  readonly said: string;
  readonly text: string;
  readonly width: number;
  readonly height: number;
}

/** The signal word's band, to stay in sight, and the message, which may scroll. */
export interface Panel {
  readonly band: readonly Row[];
  readonly message: readonly Row[];
}

/**
 * A caution laid out for its room: band and message together fill exactly `height` rows, the message in the middle and each sentence by
 * itself where there is room. Words of a caution are never left out: in too little room the message is longer, and has to scroll.
 */
export function panel({ word, said, text, width, height }: Caution): Panel {
  const style = bandStyle(word);
  const band =
    height >= ROOMY.rows && width >= ROOMY.columns
      ? tallBand(word, said, width, style)
      : [fillRow(flatBand(word, said, style), width, style)];
  const room = Math.max(0, height - band.length);
  const message = [airy, close].map((layOut) => layOut(text, width)).find((rows) => rows.length <= room);
  return { band, message: message ? inTheMiddle(message, room) : close(text, width) };
}

/** From this size on the band has three rows and the symbol is drawn large. */
const ROOMY = { rows: 12, columns: 24 };

/** Lines longer than this are hard to read from a metre away. */
const READABLE = 56;

/** The general warning sign, a triangle around an exclamation mark: only for hazards to people. */
const SIGN = ['  ^  ', ' /!\\ ', '/___\\'];

function bandStyle(word: SignalWord): Style {
  switch (word) {
    case 'DANGER':
      return 'danger';
    case 'WARNING':
      return 'warning';
    case 'CAUTION':
      return 'caution';
    case 'NOTICE':
      return 'notice';
    default:
      return assertNever(word);
  }
}

const hasSign = (word: SignalWord): boolean => word !== 'NOTICE';

const flatBand = (word: SignalWord, said: string, style: Style): Row => [
  span(hasSign(word) ? ` /!\\ ${said}` : ` ${said}`, style),
];

function tallBand(word: SignalWord, said: string, width: number, style: Style): readonly Row[] {
  const spaced = graphemes(said).join(' ');
  return SIGN.map((line, at) =>
    fillRow([span(`  ${hasSign(word) ? `${line}   ` : ''}${at === 1 ? spaced : ''}`, style)], width, style),
  );
}

const sentences = (text: string): readonly string[] => text.trim().split(/(?<=[.!?])\s+(?=\S)/);

const measureOf = (width: number): number => Math.max(1, Math.min(READABLE, width - 4));

function airy(text: string, width: number): readonly Row[] {
  const rows = sentences(text).map((sentence) => wrapRow([span(sentence, 'bright')], measureOf(width)));
  const between: readonly Row[] = rows.flatMap((lines, at) => (at === 0 ? lines : [[], ...lines]));
  return placed(between, width);
}

const close = (text: string, width: number): readonly Row[] =>
  placed(wrapRow([span(text.trim(), 'bright')], measureOf(width)), width);

/** The block of lines in the middle of the width, its left edge straight. */
function placed(rows: readonly Row[], width: number): readonly Row[] {
  const left = Math.floor((width - Math.max(0, ...rows.map(rowColumns))) / 2);
  return rows.map((row) => (row.length === 0 ? row : indentRow(row, left)));
}

function inTheMiddle(rows: readonly Row[], room: number): readonly Row[] {
  const above = Math.floor((room - rows.length) / 2);
  const empty = (count: number): readonly Row[] => Array.from({ length: count }, () => []);
  return [...empty(above), ...rows, ...empty(room - rows.length - above)];
}

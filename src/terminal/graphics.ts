import type { Pixels } from '../raster/raster.ts';
import type { Size } from './open-terminal.ts';

/** What a terminal says it can show beside characters. */
export interface Graphics {
  readonly way: 'kitty' | 'sixel';
  readonly cell: Pixels;
  /** The largest picture it takes; `null` when it does not say. */
  readonly most: Pixels | null;
  /** How many colours a picture may have; a terminal of the Kitty protocol takes any number. */
  readonly colours: number;
  /** The colour behind the text as `#rrggbb`; `null` when the terminal does not tell. */
  readonly ground: string | null;
}

/** What has been answered so far. */
export interface Answers {
  readonly kitty: 'yes' | 'no';
  readonly sixel: 'yes' | 'no';
  readonly cell: Pixels | null;
  /** The field for sixels, and the largest that was told of. */
  readonly field: Pixels | null;
  readonly most: Pixels | null;
  readonly colours: number | null;
  readonly ground: string | null;
  /** `all` once the last question is answered. */
  readonly heard: 'some' | 'all';
}

export const noAnswers: Answers = {
  kitty: 'no',
  sixel: 'no',
  cell: null,
  field: null,
  most: null,
  colours: null,
  ground: null,
  heard: 'some',
};

/** The answers with one more; `null` when this is none, but something a key sent. */
export function withAnswer(answers: Answers, bytes: string): Answers | null {
  if (/^\x1b_G[^;]*;/.test(bytes)) return /;OK\x1b\\$/.test(bytes) ? { ...answers, kitty: 'yes' } : answers;
  const cell = /^\x1b\[6;(\d+);(\d+)t$/.exec(bytes);
  if (cell) return { ...answers, cell: sizeOf(Number(cell[2]), Number(cell[1])) };
  const colours = /^\x1b\[\?1;(\d+);?(\d*)S$/.exec(bytes);
  if (colours) return colours[1] === '0' ? { ...answers, colours: Number(colours[2]) } : answers;
  const field = /^\x1b\[\?2;(\d+);?(\d*);?(\d*)S$/.exec(bytes);
  if (field) return field[1] === '0' ? withField(answers, fieldOf(Number(field[2]), Number(field[3]))) : answers;
  const ground = /^\x1b\]11;(?:rgba?:(\w+)\/(\w+)\/(\w+))?/.exec(bytes);
  if (ground) return { ...answers, ground: colourOf(ground.slice(1)) };
  const device = /^\x1b\[\?([\d;]*)c$/.exec(bytes);
  if (!device) return null;
  // The first number is the kind of terminal; 4 among the others is sixel (DEC VT340 and its heirs).
  const attributes = (device[1] ?? '').split(';').slice(1);
  return { ...answers, sixel: attributes.includes('4') ? 'yes' : 'no', heard: 'all' };
}

/** What a terminal of so many cells can; `null` when it shows characters only. */
export function graphicsOf({ kitty, sixel, cell, field, most, colours, ground }: Answers, size: Size): Graphics | null {
  if (kitty === 'no' && sixel === 'no') return null;
  const way = kitty === 'yes' ? 'kitty' : 'sixel';
  // 256 is what terminals have that do not say; a palette of one colour shows nothing.
  const palette = way === 'kitty' ? Number.MAX_SAFE_INTEGER : Math.min(256, Math.max(2, colours ?? 256));
  return {
    way,
    cell: cell ?? cellIn(field, most, size),
    most: way === 'kitty' ? null : most,
    colours: palette,
    ground,
  };
}

/** Cells are hardly smaller: a picture made for larger ones would cover what stands beside it. */
const SMALL_CELL = { width: 8, height: 16 };

/** The field is that of all cells together and less than one more, where it is not cut to the largest. */
function cellIn(field: Pixels | null, most: Pixels | null, { columns, rows }: Size): Pixels {
  if (field === null || most === null) return SMALL_CELL;
  const width = field.width < most.width ? Math.floor(field.width / columns) : SMALL_CELL.width;
  const height = field.height < most.height ? Math.floor(field.height / rows) : SMALL_CELL.height;
  return sizeOf(width, height) ?? SMALL_CELL;
}

/** A cell of no size, or of a size that nobody could read, was not understood. */
function sizeOf(width: number, height: number): Pixels | null {
  const [usualWidth, usualHeight] = [width >= 4 && width <= 100, height >= 6 && height <= 200];
  return usualWidth && usualHeight ? { width, height } : null;
}

/** The first answer is of the field as it is; each may be of the largest. */
const withField = (answers: Answers, field: Pixels | null): Answers => ({
  ...answers,
  field: answers.field ?? field,
  most:
    answers.most && field
      ? {
          width: Math.max(answers.most.width, field.width),
          height: Math.max(answers.most.height, field.height),
        }
      : (field ?? answers.most),
});

const fieldOf = (width: number, height: number): Pixels | null =>
  width >= 50 && height >= 50 ? { width, height } : null;

/** `rgb:1010/1010/1414` as `#101014`: of each number, which has one to four digits, the two that count. */
function colourOf(parts: readonly (string | undefined)[]): string | null {
  const pairs = parts.map((part) =>
    part !== undefined && /^[\da-f]{1,4}$/i.test(part)
      ? Math.round((Number.parseInt(part, 16) / (16 ** part.length - 1)) * 255)
          .toString(16)
          .padStart(2, '0')
      : null,
  );
  return pairs.includes(null) ? null : `#${pairs.join('')}`;
}

import type { Box } from '../drawing/drawing.ts';
import { seenLines } from './seen-lines.ts';

/** How much a part of the picture stands out. The cells of a louder one hide those of a quieter one. */
export type Tone = 'bright' | 'plain' | 'faint';

/** How a line is drawn: two dots wide, in dashes like stitches, or in single dots; told apart without any colour. */
export type Pen = 'heavy' | 'heavy stitches' | 'thin' | 'stitches' | 'dotted';

/**
 * Line art of braille characters: a cell is two dots wide and four high, so that dots are about as far apart across as down.
 * Each tone is a sheet of its own: a byte of dots for each cell, row by row, as U+2800 numbers them.
 */
export interface Dots {
  readonly columns: number;
  readonly rows: number;
  readonly sheets: Readonly<Record<Tone, Uint8Array>>;
  /** The loudest line that passes a cell, as its place in `TONES` from 1; 0 for none. */
  readonly loudest: Uint8Array;
}

const TONES: readonly Tone[] = ['faint', 'plain', 'bright'];

export function noDots(columns: number, rows: number): Dots {
  const sheet = (): Uint8Array => new Uint8Array(columns * rows);
  return { columns, rows, sheets: { bright: sheet(), plain: sheet(), faint: sheet() }, loudest: sheet() };
}

/** Draws a path, in millimetres, as far as it lies in `view`, which fills the whole of the dots. */
export function drawPath(dots: Dots, path: string, view: Box, pen: Pen, tone: Tone): void {
  const [width, height] = [dots.columns * 2, dots.rows * 4];
  const { wide, on, off } = PENS[pen];
  const put = inker(dots, tone);
  for (const run of seenLines(path, { x: view.x, y: view.y, width, height, scale: width / view.width }, 0.3)) {
    // In dots, also along lines shorter than one: else a line of many points would have dashes too short to be seen.
    let walked = 0;
    for (const [fromX, fromY, toX, toY] of run) {
      const long = Math.max(Math.abs(toX - fromX), Math.abs(toY - fromY));
      const steps = Math.max(1, Math.round(long));
      for (let step = 0; step <= steps; step++) {
        // The place between two lines belongs to the one before.
        if (step > 0) walked += long / steps;
        const x = Math.floor(fromX + ((toX - fromX) * step) / steps);
        const y = Math.floor(fromY + ((toY - fromY) * step) / steps);
        const ink = walked % (on + off) < on ? 'dot' : 'gap';
        for (let across = 0; across < wide; across++) {
          for (let down = 0; down < wide; down++) put(x + across, y + down, ink);
        }
      }
    }
  }
}

/** Dots across the line, and dots along it that are drawn and left out in turn. */
const PENS: Readonly<Record<Pen, { readonly wide: 1 | 2; readonly on: number; readonly off: number }>> = {
  heavy: { wide: 2, on: 1, off: 0 },
  'heavy stitches': { wide: 2, on: 6, off: 4 },
  thin: { wide: 1, on: 1, off: 0 },
  stitches: { wide: 1, on: 6, off: 4 },
  dotted: { wide: 1, on: 1, off: 1 },
};

/** Numbers of the dots of a braille cell by row, then column (Unicode, block U+2800). */
const BITS = [0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80];

/** The gap of a dashed line keeps what is quieter out of its cell too: it would fill the gap. */
function inker(
  { columns, rows, sheets, loudest }: Dots,
  tone: Tone,
): (x: number, y: number, ink: 'dot' | 'gap') => void {
  const sheet = sheets[tone];
  const loudness = TONES.indexOf(tone) + 1;
  return (x, y, ink) => {
    if (x < 0 || y < 0 || x >= columns * 2 || y >= rows * 4) return;
    const cell = (y >> 2) * columns + (x >> 1);
    loudest[cell] = Math.max(loudest[cell] ?? 0, loudness);
    if (ink === 'dot') sheet[cell] = (sheet[cell] ?? 0) | (BITS[(y & 3) * 2 + (x & 1)] ?? 0);
  };
}

/** The tone of the loudest line in a cell; `null` where there is none. */
export const toneAt = ({ loudest }: Dots, cell: number): Tone | null => TONES[(loudest[cell] ?? 0) - 1] ?? null;

/** The character of a cell: only dots of its loudest tone, so that a heavy line is not blurred by what it crosses. */
export function characterAt(dots: Dots, cell: number): string {
  const tone = toneAt(dots, cell);
  const bits = tone === null ? 0 : (dots.sheets[tone][cell] ?? 0);
  return bits === 0 ? ' ' : String.fromCodePoint(0x2800 + bits);
}

import type { Greys } from '../raster/raster.ts';
import type { Area } from './lay-out.ts';

/**
 * Neighbouring cells that look alike. `text` shows them without colour, in shades; in colour each is an upper half block of the grey
 * `over` on one of the grey `under`, from 0, nearly black, to 23. `null` is empty room beside the photograph.
 */
interface PhotoRun {
  readonly text: string;
  readonly greys: { readonly over: number; readonly under: number } | null;
}

/** Exactly as many rows as the area has, each exactly as many columns wide; the photograph stands in the middle. */
export type PhotoPicture = readonly (readonly PhotoRun[])[];

/**
 * A photograph where only characters can be shown. Half blocks of grey were compared with braille dots, which dissolve into noise,
 * and with shades alone, which show no shapes smaller than a hand: at 40 by 12 only the greys tell what is seen.
 */
export function photoInCharacters(greys: Greys, area: Area): PhotoPicture {
  const { columns, rows, values } = fitted(greys, area.columns, area.rows * 2);
  const [left, top] = [Math.floor((area.columns - columns) / 2), Math.floor((area.rows - Math.ceil(rows / 2)) / 2)];
  const level = (column: number, row: number): number =>
    Math.round(((values[Math.min(row, rows - 1) * columns + column] ?? 0) / 255) * LEVELS);
  return Array.from({ length: area.rows }, (_, row) => {
    const runs: PhotoRun[] = [];
    for (let column = 0; column < area.columns; column++) {
      const [x, y] = [column - left, (row - top) * 2];
      const isSeen = x >= 0 && x < columns && y >= 0 && y < rows;
      const greys = isSeen ? { over: level(x, y), under: level(x, y + 1) } : null;
      const text = greys
        ? (SHADES[Math.floor(((greys.over + greys.under) * SHADES.length) / (2 * LEVELS + 2))] ?? ' ')
        : ' ';
      const last = runs.at(-1);
      if (last && isSame(last.greys, greys)) runs[runs.length - 1] = { text: last.text + text, greys };
      else runs.push({ text, greys });
    }
    return runs;
  });
}

const LEVELS = 23;
const SHADES = [' ', '░', '▒', '▓', '█'];

const isSame = (one: PhotoRun['greys'], other: PhotoRun['greys']): boolean =>
  one?.over === other?.over && one?.under === other?.under;

/** The photograph as large as it fits, in its shape; each grey is the mean of those it stands for. */
function fitted({ columns, rows, values }: Greys, mostColumns: number, mostRows: number): Greys {
  const scale = Math.min(mostColumns / columns, mostRows / rows);
  const [wide, high] = [columns, rows].map((length) => Math.max(1, Math.floor(length * scale))) as [number, number];
  const small = new Uint8Array(wide * high);
  for (let y = 0; y < high; y++) {
    const [top, bottom] = share(y, high, rows);
    for (let x = 0; x < wide; x++) {
      const [left, right] = share(x, wide, columns);
      let sum = 0;
      for (let row = top; row < bottom; row++)
        for (let column = left; column < right; column++) sum += values[row * columns + column] ?? 0;
      small[y * wide + x] = Math.round(sum / ((bottom - top) * (right - left)));
    }
  }
  return { columns: wide, rows: high, values: small };
}

/** From which of `many` to before which the `at`-th of `few` stands for; always one at least. */
function share(at: number, few: number, many: number): readonly [number, number] {
  const from = Math.floor((at * many) / few);
  return [from, Math.max(from + 1, Math.floor(((at + 1) * many) / few))];
}

import { kittyDelete } from './kitty.ts';

/** A picture as it goes to the terminal, drawn from where the cursor stands. */
export type SentPicture =
  | { readonly way: 'kitty'; readonly id: number; readonly bytes: string }
  | { readonly way: 'sixel'; readonly bytes: string };

/**
 * A picture over cells that the frame leaves blank. Column and row count from 0 at the top left. `beside` is all that the frame
 * shows in those rows, looks and all: when it changes, a terminal that keeps pixels in its cells has to be sent them again.
 */
export interface PlacedPicture {
  readonly picture: SentPicture;
  readonly column: number;
  readonly row: number;
  readonly columns: number;
  readonly rows: number;
  readonly beside: string;
}

/** Draws it, and leaves the cursor where it was. */
export const drawn = ({ picture, column, row }: PlacedPicture): string =>
  `${KEEP_CURSOR}${goTo(column, row)}${picture.bytes}${CURSOR_BACK}`;

/** Takes it away: out of the terminal's memory, or out of its cells, which become blank. */
export function erased({ picture, column, row, columns, rows }: PlacedPicture): string {
  if (picture.way === 'kitty') return kittyDelete(picture.id);
  const lines = Array.from({ length: rows }, (_, down) => `${goTo(column, row + down)}\x1b[${columns}X`);
  return `${KEEP_CURSOR}\x1b[0m${lines.join('')}${CURSOR_BACK}`;
}

/** Whether it is the same picture at the same place. */
export const isSamePlace = (one: PlacedPicture, other: PlacedPicture): boolean =>
  one.picture === other.picture && one.column === other.column && one.row === other.row;

const goTo = (column: number, row: number): string => `\x1b[${row + 1};${column + 1}H`;
const KEEP_CURSOR = '\x1b7';
const CURSOR_BACK = '\x1b8';

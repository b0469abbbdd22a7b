import { columns } from '../base/columns.ts';
import type { Box, Label } from '../drawing/drawing.ts';
import { holds, overlap } from './box.ts';
import { type Dots, type Tone, toneAt } from './dots.ts';

/** Words to be put into a picture, and where they would best begin: column and row of cells. The first place is the best. */
export interface Wish {
  readonly words: string;
  readonly tone: Tone;
  readonly places: readonly Place[];
}

export interface Place {
  readonly column: number;
  readonly row: number;
}

export interface Placed extends Place {
  readonly words: string;
  readonly wide: number;
  readonly tone: Tone;
}

/**
 * Puts words where they hide the least, the first wish first. No word stands on another, all are whole and inside the picture;
 * what finds no room is left out.
 */
export function placeLabels(dots: Dots, wishes: readonly Wish[]): readonly Placed[] {
  const placed: Placed[] = [];
  const taken = new Uint8Array(dots.columns * dots.rows);
  for (const { words, tone, places } of wishes) {
    const wide = columns(words);
    let best: { readonly cost: number; readonly place: Place } | null = null;
    for (const [index, wished] of places.entries()) {
      const place = { row: wished.row, column: Math.min(Math.max(0, wished.column), dots.columns - wide) };
      if (place.column < 0 || place.row < 0 || place.row >= dots.rows) continue;
      const from = place.row * dots.columns;
      const gap = taken.subarray(
        from + Math.max(0, place.column - GAP),
        from + Math.min(dots.columns, place.column + wide + GAP),
      );
      if (gap.includes(1)) continue;
      const cost = index + hidden(dots, place, wide, tone);
      if (cost === Infinity) continue;
      if (index > 0 && tone !== 'bright' && isAcross(dots, place, wide)) continue;
      if (best === null || cost < best.cost) best = { cost, place };
    }
    if (best === null) continue;
    const { row, column } = best.place;
    taken.fill(1, row * dots.columns + column, row * dots.columns + column + wide);
    placed.push({ row, column, words, wide, tone });
  }
  return placed;
}

/** Columns that stay free between two labels of one row, so that nobody reads them as one. */
const GAP = 2;

/** What it costs to hide a cell of a tone, in places further down the list of wishes. */
const COST: Readonly<Record<Tone, number>> = { bright: 12, plain: 2, faint: 0.5 };

/** Words around hide nothing of what is brought out; its own name may, where there is no other room. */
function hidden(dots: Dots, { column, row }: Place, wide: number, words: Tone): number {
  let cost = 0;
  for (let at = column; at < column + wide; at++) {
    const tone = toneAt(dots, row * dots.columns + at);
    if (tone === 'bright' && words !== 'bright') return Infinity;
    if (tone) cost += COST[tone];
  }
  return cost;
}

/** Whether words moved from their own place would stand on something else all along, and seem to be about that. A name is too short to. */
function isAcross(dots: Dots, { column, row }: Place, wide: number): boolean {
  let covered = 0;
  for (let at = column; at < column + wide; at++) if (toneAt(dots, row * dots.columns + at)) covered++;
  return covered > Math.max(NAME, wide / 2);
}

/** Longest name, in columns; what is longer is a sentence. */
const NAME = 12;

/**
 * Where a label of the drawing may stand: where the drawing has it, or a little beside. The name of a piece of which only a part is
 * seen (`piece` answers its box, or `null`) comes along into that part. None when the view shows neither.
 */
export function placesOfLabel(dots: Dots, label: Label, view: Box, piece: () => Box | null): readonly Place[] {
  const { anchor, words } = label;
  const cell = view.width / dots.columns;
  const there: Spot = [label.x, label.y - label.height / 3];
  const seen = holds(view, ...there) ? there : cameAlong(there, piece(), view, cell);
  if (seen === null) return [];
  const wide = columns(words);
  const column = Math.round((seen[0] - view.x) / cell - (anchor === 'start' ? 0 : anchor === 'end' ? wide : wide / 2));
  const row = Math.floor((seen[1] - view.y) / (2 * cell));
  return AROUND.map(([across, down]) => ({ column: column + across, row: row + down }));
}

type Spot = readonly [number, number];

/** The place nearest to a spot that is well inside what is seen of a box; `null` when that has no room for a name. */
function cameAlong([x, y]: Spot, box: Box | null, view: Box, cell: number): Spot | null {
  if (box === null) return null;
  const { x: left, y: top, width, height } = overlap(box, view);
  const [across, down] = [4 * cell, 3 * cell];
  if (width < 2 * across || height < 2 * down) return null;
  return [
    Math.min(Math.max(x, left + across), left + width - across),
    Math.min(Math.max(y, top + down), top + height - down),
  ];
}

const AROUND = [
  [0, 0],
  [0, -1],
  [0, 1],
  [-2, 0],
  [2, 0],
  [-3, -1],
  [3, -1],
  [-3, 1],
  [3, 1],
  [-5, 0],
  [5, 0],
  [0, -2],
  [0, 2],
] as const;

/** Where the name of something that has no label may stand: above, below or beside the middle and the ends of its box. */
export function placesBeside(dots: Dots, box: Box, words: string, view: Box): readonly Place[] {
  const wide = columns(words);
  const cell = view.width / dots.columns;
  const [left, right] = [(box.x - view.x) / cell, (box.x + box.width - view.x) / cell].map((at) =>
    within(at, dots.columns),
  ) as [number, number];
  const [top, bottom] = [(box.y - view.y) / (2 * cell), (box.y + box.height - view.y) / (2 * cell)].map((at) =>
    within(at, dots.rows),
  ) as [number, number];
  const [above, below, beside] = [Math.floor(top) - 1, Math.floor(bottom) + 1, Math.floor((top + bottom) / 2)];
  const middle = Math.round((left + right - wide) / 2);
  const quarter = Math.round((right - left) / 4);
  return [
    { column: Math.floor(left) - 1 - wide, row: beside },
    { column: Math.ceil(right) + 1, row: beside },
    ...[0, -1, 1].flatMap((by) => [
      { column: middle + by * quarter, row: above },
      { column: middle + by * quarter, row: below },
    ]),
    { column: Math.floor(left), row: above },
    { column: Math.ceil(right) - wide, row: above },
    { column: Math.floor(left), row: below },
    { column: Math.ceil(right) - wide, row: below },
    ...[-2, 2, -3, 3].map((down) => ({ column: middle, row: beside + down })),
    { column: middle, row: beside },
  ];
}

const within = (at: number, most: number): number => Math.min(Math.max(0, at), most);

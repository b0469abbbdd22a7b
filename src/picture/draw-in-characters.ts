import { columns, graphemes } from '../base/columns.ts';
import type { Drawing } from '../drawing/drawing.ts';
import { characterAt, type Dots, type Tone, toneAt } from './dots.ts';
import type { Placed } from './labels.ts';
import { type Area, layOut } from './lay-out.ts';
import type { Wanted } from './standing.ts';

/** Characters of one tone. */
interface Run {
  readonly text: string;
  readonly tone: Tone;
}

/** Exactly as many rows as the area has, each exactly as many columns wide. */
export type CharacterPicture = readonly (readonly Run[])[];

/**
 * A drawing as a picture made of characters. What is brought out is drawn heavy and has its name beside it, sewn seams are drawn
 * as stitches, the rest in single dots. The labels of the drawing are words, never one upon another, and never at the cost of
 * what is brought out.
 */
export function drawInCharacters(drawing: Drawing, area: Area, wanted: Wanted): CharacterPicture {
  if (area.columns < 1 || area.rows < 1) return [];
  const { dots, labels } = layOut(drawing, area, wanted);
  return runs(dots, labels);
}

/** The cells of each row put together, neighbours of one tone in one run. A wide character fills two cells. */
function runs(dots: Dots, labels: readonly Placed[]): CharacterPicture {
  return Array.from({ length: dots.rows }, (_, row) => {
    const cells = Array.from({ length: dots.columns }, (_, column): Run => {
      const cell = row * dots.columns + column;
      return { text: characterAt(dots, cell), tone: toneAt(dots, cell) ?? 'faint' };
    });
    for (const { words, tone, column, row: at, wide } of labels) {
      if (at !== row) continue;
      let to = column;
      for (const text of graphemes(words)) {
        cells[to++] = { text, tone };
        if (columns(text) === 2) cells[to++] = { text: '', tone };
      }
      for (const beside of [column - 1, column + wide]) {
        const cell = cells[beside];
        if (cell && cell.tone !== 'bright') cells[beside] = { text: ' ', tone: 'faint' };
      }
    }
    return joined(cells);
  });
}

function joined(cells: readonly Run[]): readonly Run[] {
  const row: Run[] = [];
  for (const { text, tone } of cells) {
    const last = row.at(-1);
    if (last && (last.tone === tone || text === ' ')) row[row.length - 1] = { text: last.text + text, tone: last.tone };
    else row.push({ text, tone });
  }
  return row;
}

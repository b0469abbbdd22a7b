import { columns, graphemes } from '../base/columns.ts';
import { type Row, span } from './row.ts';

/** A line being typed. */
export interface Field {
  readonly text: string;
  /** Place of the cursor: how many graphemes stand before it; at the end unless given. */
  readonly cursor?: number;
  /** Columns for the typed text, the unit not counted; at least 1. */
  readonly width: number;
  /** Unit or other words behind the blank. */
  readonly unit?: string;
}

/**
 * An entry field of exactly `width` columns and its unit. The cursor is drawn, since the terminal's own is hidden: a full block behind
 * the text, a reversed character within it. Text too long for the field scrolls so that the cursor is seen; `…` stands where it was cut.
 */
export function field({ text, cursor, width, unit }: Field): Row {
  const cells = graphemes(text);
  const at = Math.max(0, Math.min(cells.length, cursor ?? cells.length));
  const under = cells[at];
  const before = lastThatFit(cells.slice(0, at), width - columns(under ?? CURSOR));
  const after = firstThatFit(cells.slice(at + 1), width - columns(before) - columns(under ?? CURSOR));
  const empty = Math.max(0, width - columns(before) - columns(under ?? CURSOR) - columns(after));
  return [
    span(before, 'bright'),
    under === undefined ? span(CURSOR, 'bright') : span(under, 'reverse'),
    span(after, 'bright'),
    span('▁'.repeat(empty)),
    span(unit ? ` ${unit}` : ''),
  ].filter((part) => part.text !== '');
}

const CURSOR = '█';

function lastThatFit(cells: readonly string[], room: number): string {
  if (columns(cells.join('')) <= room) return cells.join('');
  let kept = '';
  for (const cell of cells.toReversed()) {
    if (columns(cell + kept) > room - 1) break;
    kept = cell + kept;
  }
  return room > 0 ? `…${kept}` : '';
}

function firstThatFit(cells: readonly string[], room: number): string {
  if (columns(cells.join('')) <= room) return cells.join('');
  let kept = '';
  for (const cell of cells) {
    if (columns(kept + cell) > room - 1) break;
    kept += cell;
  }
  return room > 0 ? `${kept}…` : '';
}

import { blank, cutRow, fillRow, type Row, span } from './row.ts';

/** A screen before it is cut to the terminal. */
export interface Page {
  /** Rows that stay at the top. */
  readonly header: readonly Row[];
  /** Rows that scroll. */
  readonly body: readonly Row[];
  /** Rows that stay at the bottom; the last one stays longest when room is short. */
  readonly footer: readonly Row[];
  /** Index of the first body row that must be seen. */
  readonly focus: number;
  /** How many body rows from `focus` on belong together; 1 unless given. */
  readonly focusRows?: number;
  /** Rows scrolled by hand away from where the focus puts the body; down is positive, 0 unless given. */
  readonly scrollBy?: number;
  /** What a sign says of so many rows out of sight; in English unless given. */
  readonly signs?: Signs;
  /** Something that stands still beside the body, while that scrolls. */
  readonly beside?: Beside;
  readonly width: number;
  readonly height: number;
}

export interface Beside {
  /** The column it begins in; the body is cut before it. */
  readonly from: number;
  /** Its rows for a room of this size; none wider, and no more. */
  readonly draw: (room: Room) => readonly Row[];
}

export interface Room {
  readonly columns: number;
  readonly rows: number;
}

export interface Signs {
  readonly above: (count: number) => string;
  readonly below: (count: number) => string;
}

const IN_ENGLISH: Signs = { above: (count) => `${count} more above`, below: (count) => `${count} more below` };

/**
 * Exactly `height` rows, none wider than `width`. The body is scrolled no further than the focus needs, so as much as fits of what
 * stands before it is seen too; rows out of sight are counted in a sign. With little height the footer goes first, then the header.
 */
export function page(whole: Page): readonly Row[] {
  const { header, footer, room } = shares(whole);
  const body = window(whole, top(whole, room), room);
  const filling = Array.from({ length: room - body.length }, () => blank);
  const middle = withBeside([...body, ...filling], whole);
  return [...header, ...middle, ...footer].map((row) => cutRow(row, whole.width));
}

/**
 * Where on the screen the page's `beside` stands, counted from 0; null without one, or without room for it. Beside a body it is not larger
 * where the foot happens to be small: another key in the legend must not draw it anew.
 */
export function besideRoom(whole: Page): (Room & { readonly column: number; readonly row: number }) | null {
  const { header, room } = shares(whole);
  const { beside, body, width, height } = whole;
  const rows = body.length === 0 ? room : Math.min(room, height - header.length - USUAL_FOOT);
  if (!beside || rows < 1 || beside.from >= width) return null;
  return { column: beside.from, row: header.length, columns: width - beside.from, rows };
}

/** An empty row, a message of one row, two rows of keys. */
const USUAL_FOOT = 4;

function withBeside(rows: readonly Row[], whole: Page): readonly Row[] {
  const place = besideRoom(whole);
  if (!whole.beside || place === null) return rows;
  const drawn = whole.beside.draw(place);
  return rows.map((row, at) => [...fillRow(row, place.column), ...(drawn[at] ?? blank)]);
}

/** The smallest and largest `scrollBy` that still move the body; both 0 when everything is in sight. */
export function scrollRange(whole: Page): { readonly least: number; readonly most: number } {
  const { room } = shares(whole);
  const start = top({ ...whole, scrollBy: 0 }, room);
  return { least: 0 - start, most: last(whole.body, room) - start };
}

/** A body of fewer rows than this is not worth a header: two signs and the row between. */
const LEAST_BODY = 3;

function shares({ header, body, footer, height }: Page) {
  const total = Math.max(0, height);
  const least = Math.min(total, LEAST_BODY, body.length);
  const kept = header.slice(0, Math.max(0, total - least));
  const left = Math.max(0, total - least - kept.length);
  const end = footer.slice(Math.max(0, footer.length - left));
  return { header: kept, footer: end, room: total - kept.length - end.length };
}

const last = (body: readonly Row[], room: number): number => Math.max(0, body.length - room);

/** The body row in the first place of the window. With room for signs, a sign covers the first or the last place. */
function top({ body, focus, focusRows = 1, scrollBy = 0 }: Page, room: number): number {
  const covered = room >= LEAST_BODY ? 1 : 0;
  const first = within(focus, 0, body.length - 1);
  const end = within(focus + focusRows - 1, first, body.length - 1);
  const forEnd = end <= room - 1 - covered ? 0 : end - (room - 1 - covered);
  const forFirst = Math.min(forEnd, Math.max(0, first - covered));
  return within(within(forFirst, 0, last(body, room)) + scrollBy, 0, last(body, room));
}

function window({ body, signs = IN_ENGLISH }: Page, start: number, room: number): readonly Row[] {
  const shown = body.slice(start, start + room);
  if (room < LEAST_BODY) return shown;
  const below = body.length - start - room;
  const from = start > 0 ? [[span(` ↑ ${signs.above(start + 1)}`)], ...shown.slice(1)] : shown;
  return below > 0 ? [...from.slice(0, -1), [span(` ↓ ${signs.below(below + 1)}`)]] : from;
}

const within = (value: number, low: number, high: number): number => Math.max(low, Math.min(high, value));

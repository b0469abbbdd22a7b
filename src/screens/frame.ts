import type { App, Message, Play } from '../app/app.ts';
import { speak } from '../app/speak.ts';
import { setWords } from '../app/words.ts';
import { setsLeft } from '../bundle/bundle.ts';
import { progress } from '../bundle/next.ts';
import { nameOf } from '../bundle/room.ts';
import { route } from '../bundle/route.ts';
import { hints } from '../keys/hints.ts';
import { HELP_ONLY } from '../keys/keymap.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { type Hint, legend } from '../widgets/legend.ts';
import type { Page, Signs } from '../widgets/page.ts';
import { blank, cutRow, fillRow, indentRow, leftRight, type Row } from '../widgets/row.ts';
import { seam } from '../widgets/seam.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { openKeys } from './open-keys.ts';
import { said } from './said.ts';

/** What a screen puts between the head and the foot that all screens share. */
export interface Content {
  /** Rows that stay in sight above the body. */
  readonly top?: readonly Row[];
  readonly body: readonly Row[];
  /** Index of the first body row that must be seen; 0 unless given. */
  readonly focus?: number;
  /** How many rows from there on belong together; 1 unless given. */
  readonly focusRows?: number;
}

/** Longer lines are hard to find the way back from, so wide terminals do not get them. */
const READABLE = 78;

/** From this height on there are empty rows between the blocks. */
const ROOMY = 18;

/** Columns for the text of a screen. */
export const textWidth = ({ columns }: Size): number => Math.max(1, Math.min(READABLE, columns - 2));

/** An empty row where there is room for one. */
export const gap = ({ rows }: Size): readonly Row[] => (rows >= ROOMY ? [blank] : []);

/** A whole screen: the head that says what is being done, the content, and the foot with the message and the keys. */
export function frame(app: App, size: Size, { top = [], body, focus = 0, focusRows = 1 }: Content): Page {
  const { columns, rows } = size;
  return {
    header: [...rehearsal(app, columns), ...indented(head(app, size)), ...gap(size), ...indented(top)],
    body: indented(body),
    footer: footer(app, size),
    focus,
    focusRows,
    scrollBy: app.scroll,
    signs: signsOf(app),
    width: columns,
    height: rows,
  };
}

/** What stands in the place of rows out of sight. */
export function signsOf(app: App): Signs {
  const say = speak(app);
  return {
    above: (count) => say('{count} more above', { count }),
    below: (count) => say('{count} more below', { count }),
  };
}

/** The line that stands on every screen of a rehearsal. */
export const rehearsal = (app: App, columns: number): readonly Row[] =>
  app.purpose === 'rehearse'
    ? [fillRow([said(` ${speak(app)('REHEARSAL · nothing is recorded')}`, 'reverse')], columns, 'reverse')]
    : [];

/** The message, when there is one, and the keys. */
export function footer(app: App, size: Size): readonly Row[] {
  const width = Math.max(1, size.columns - 2);
  const message = app.message ? messageRows(app.message, width) : [];
  const keys = legend(footHints(app), width, size.rows >= 24 ? 2 : 1);
  return [...gap(size), ...indented(message), ...indented(keys)];
}

function footHints(app: App): readonly Hint[] {
  const say = speak(app);
  return hints(openKeys(app).filter(({ rank }) => rank < HELP_ONLY)).map(({ keys, words }) => ({
    keys,
    words: say(words),
  }));
}

const indented = (rows: readonly Row[]): readonly Row[] =>
  rows.map((row) => (row.length === 0 ? row : indentRow(row, 1)));

/** A message longer than this many rows would push the next action out of sight. */
const MOST_MESSAGE = 4;

function messageRows({ tone, text }: Message, width: number): readonly Row[] {
  const sign = { refusal: '! ', good: '✓ ', plain: '' }[tone];
  return wrapRow([said(sign, 'strong'), said(text, tone === 'refusal' ? 'strong' : 'plain')], width, sign.length).slice(
    0,
    MOST_MESSAGE,
  );
}

function head(app: App, size: Size): readonly Row[] {
  const width = Math.max(1, size.columns - 2);
  const name = app.hand === null ? '' : nameOf(app.room, app.hand);
  if (!app.play) return [apart(`${app.roomName} · ${app.station}`, name, width)];
  const { play } = app;
  const { procedure, bundle } = play;
  const say = speak(app);
  const revision =
    bundle.text && app.purpose === 'record' ? ` ${say('rev {revision}', { revision: bundle.text.revision })}` : '';
  const set = 'at' in play.next ? setWords(say, play.next.at, bundle.sets) : '';
  const where = [play.ticket, set, name].filter((words) => words !== '').join(' · ');
  return [apart(`${procedure.id}${revision} · ${procedure.title}`, where, width), seam(sewn(play), width)];
}

/** The right end keeps its words before the left one, but never takes more than two thirds. */
const apart = (left: string, right: string, width: number): Row =>
  leftRight([said(left)], cutRow([said(right)], Math.floor((width * 2) / 3)), width);

function sewn({ procedure, bundle }: Play) {
  const { done, of } = progress(procedure, bundle);
  const ticks: number[] = [];
  let count = 0;
  for (const { step } of route(procedure, setsLeft(bundle))) {
    count += step.points.length;
    ticks.push(count);
  }
  return { done, total: of, ticks };
}

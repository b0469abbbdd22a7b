import type { App } from '../app/app.ts';
import { type Lock, lockWords } from '../app/lock.ts';
import { speak } from '../app/speak.ts';
import { clockFace } from '../app/when.ts';
import { elapsedSeconds } from '../bundle/elapsed.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { blank, fillRow, indentRow } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

/** A station nobody has touched for a while: who is on, with what, and the question who is here. */
export function lockScreen(app: App, lock: Lock, size: Size): Page {
  const width = textWidth(size);
  const say = speak(app);
  return frame(app, size, {
    top: [fillRow([said(` ${say('LOCKED')}`, 'reverse')], width, 'reverse'), ...gap(size)],
    body: [
      ...wrapRow([said(lockWords(app))], width),
      ...wrapRow([said(`${say('Nothing is lost: it goes on where it stood.')}${clockWords(app)}`)], width),
      blank,
      ...wrapRow([said('› ', 'bright'), said(say('Who is here? Name or badge'), 'bright')], width, 2),
      indentRow(field({ text: lock.field, width: Math.max(1, Math.min(30, width - 2)) }), 2),
    ],
    focus: 3,
    focusRows: 2,
  });
}

function clockWords(app: App): string {
  const { play, now } = app;
  const clock = play?.next.want === 'point' ? play.next.clock : null;
  return play && clock
    ? ` ${speak(app)('The clock runs: {time}.', { time: clockFace(elapsedSeconds(clock, play.bundle.lastAt, now)) })}`
    : '';
}

import type { App, Play } from '../app/app.ts';
import { when } from '../app/when.ts';
import { assertNever } from '../base/assert-never.ts';
import { nameOf } from '../bundle/room.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { blank } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

/** A bundle that is not in this hand: not begun yet, left, or taken up by somebody else meanwhile. */
export function takeUp(app: App, { bundle, ticket, next, procedure }: Play, size: Size): Page {
  const width = textWidth(size);
  const isNew = next.want === 'opening';
  return frame(app, size, {
    top: [...wrapRow([said(procedure.title)], width), ...gap(size)],
    body: [
      ...wrapRow([said(isNew ? `${ticket} is not begun.` : whose(app, bundle))], width),
      blank,
      ...wrapRow([said(isNew ? 'Press enter to begin.' : 'Press enter to take it up.', 'bright')], width),
    ],
  });
}

function whose(app: App, { ticket, work, hand, lastAt }: Play['bundle']): string {
  const name = hand === null ? 'nobody' : nameOf(app.room, hand);
  switch (work) {
    case 'paused':
      return `${ticket} was left, last touched ${when(lastAt, app.now)}.`;
    case 'handed over':
      return `${ticket} was handed over to ${name}, ${when(lastAt, app.now)}.`;
    case 'open':
    case 'not opened':
    case 'finished':
      return `${ticket} is now with ${name}, since ${when(lastAt, app.now)}.`;
    default:
      return assertNever(work);
  }
}

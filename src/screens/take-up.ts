import type { App, Play } from '../app/app.ts';
import { onlyLooks } from '../app/desk.ts';
import { speak } from '../app/speak.ts';
import { when } from '../app/when.ts';
import { assertNever } from '../base/assert-never.ts';
import { nameOf } from '../bundle/room.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { blank } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import type { Plain } from '../words/say.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

/** A bundle that is not in this hand: not begun yet, left, or taken up by somebody else meanwhile. */
export function takeUp(app: App, { bundle, ticket, next, procedure }: Play, size: Size): Page {
  const width = textWidth(size);
  const say = speak(app);
  const isNew = next.want === 'opening';
  return frame(app, size, {
    top: [...wrapRow([said(procedure.title)], width), ...gap(size)],
    body: [
      ...wrapRow([said(isNew ? say('{ticket} is not begun.', { ticket }) : whose(app, bundle))], width),
      blank,
      ...wrapRow([said(say(nextWords(app, next.want)), 'bright')], width),
    ],
  });
}

function nextWords(app: App, want: Play['next']['want']): Plain {
  if (onlyLooks(app)) return 'Press enter to go back to the desk.';
  return want === 'opening' ? 'Press enter to begin.' : 'Press enter to take it up.';
}

function whose(app: App, { ticket, work, hand, lastAt }: Play['bundle']): string {
  const say = speak(app);
  const name = hand === null ? say('nobody') : nameOf(app.room, hand);
  const at = when(say, lastAt, app.now);
  switch (work) {
    case 'paused':
      return say('{ticket} was left, last touched {when}.', { ticket, when: at });
    case 'handed over':
      return say('{ticket} was handed over to {name}, {when}.', { ticket, name, when: at });
    case 'open':
    case 'not opened':
    case 'finished':
      return say('{ticket} is now with {name}, since {when}.', { ticket, name, when: at });
    default:
      return assertNever(work);
  }
}

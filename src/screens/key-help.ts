import type { App } from '../app/app.ts';
import { modeOf } from '../app/mode.ts';
import type { Mode } from '../app/move.ts';
import { speak } from '../app/speak.ts';
import { columns } from '../base/columns.ts';
import { hints } from '../keys/hints.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { blank, type Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import type { Plain, Say } from '../words/say.ts';
import { beside } from './beside.ts';
import { frame, gap, textWidth } from './frame.ts';
import { openKeys } from './open-keys.ts';
import { said } from './said.ts';

/** The keys of the screen underneath, drawn from its keymap, and what may be typed there. */
export function keyHelp(app: App, size: Size): Page {
  const width = textWidth(size);
  const say = speak(app);
  const under: App = { ...app, layer: app.layer?.layer === 'keys' ? app.layer.over : null };
  const mode = modeOf(under);
  const all = hints(openKeys(under)).map(({ keys, words }) => ({ keys, words: say(LONG[words] ?? words) }));
  const wide = Math.max(0, ...all.map(({ keys }) => columns(keys)));
  return frame(app, size, {
    top: [...wrapRow([said(say('Keys of this screen'))], width), ...gap(size)],
    body: [
      ...all.flatMap(({ keys, words }) => beside(said(`${keys.padEnd(wide)}   `, 'strong'), [said(words)], [], width)),
      ...typingRows(say, mode, width),
    ],
  });
}

/** Words that have more room here than in the legend. */
const LONG: Partial<Record<Plain, Plain>> = {
  hold: 'hold: stop the bundle, a supervisor decides',
  'look back': 'look back at what is recorded, or strike it',
  picture: 'see the picture of this step',
  note: 'write a note',
  leave: 'leave it here, to be taken up again',
  'hand over': 'hand it over to somebody',
  undo: 'undo what was just recorded (for five seconds)',
  'back to the step': 'go back, as the step says',
  fold: 'fold the explanations away: do all points, then confirm each',
  unfold: 'show the explanations again',
  'big letters': 'big letters, or small ones again',
  'leave the program': 'leave the program; the bundle waits for you',
  clear: 'empty the field',
  close: 'close the program',
  settle: 'settle the hold (a supervisor)',
  'other keys': 'then one key: h hold, b look back, ? keys',
  keys: 'this list',
};

function typingRows(say: Say, mode: Mode, width: number): readonly Row[] {
  const text = TYPING[mode];
  return text === undefined ? [] : [blank, ...wrapRow([said(say(text))], width)];
}

const VALUE: Plain =
  'Type a value and press enter. Another unit is converted: 15 1/2 in, 31.2 cm. A caliper may type it for you.';

const TYPING: Partial<Record<Mode, Plain>> = {
  'sign on': 'Type your name or the beginning of it, scan your badge, or choose yourself from the list.',
  station: 'Type a ticket, scan it, or choose it from the list.',
  value: VALUE,
  'value begun': VALUE,
  words: 'Type the words and press enter. Letters are text here, so press esc before a key.',
  choice: 'Choose with its number or the arrows, then press enter.',
};

import type { App } from '../app/app.ts';
import { speak } from '../app/speak.ts';
import { oneLine } from '../base/text.ts';
import type { Next } from '../bundle/next.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { big } from '../widgets/big.ts';
import type { Page } from '../widgets/page.ts';
import { panel } from '../widgets/panel.ts';
import { indentRow } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { footer, rehearsal, signsOf, textWidth } from './frame.ts';
import { said } from './said.ts';

type CautionNext = Extract<Next, { readonly want: 'caution' }>;

/** A caution has the whole screen to itself until it is read: signal word, symbol, and the words as large as they go. */
export function caution(app: App, { at, caution: { word, text }, number, of }: CautionNext, size: Size): Page {
  const { columns: width, rows } = size;
  const before = rehearsal(app, width);
  const say = speak(app);
  const where = { number: at.step.number, title: at.step.title };
  const which =
    of > 1
      ? say('Step {number} {title} · {which} of {of}', { ...where, which: number, of })
      : say('Step {number} {title}', where);
  const step = wrapRow([said(which)], textWidth(size)).map((row) => indentRow(row, 1));
  const foot = footer(app, size);
  const room = rows - before.length - step.length - foot.length;
  const { band, message } = panel({ word, said: say(word), text: oneLine(text), width, height: room });
  const far = big(oneLine(text), textWidth(size), Math.max(0, room - band.length - 1)).map((row) => indentRow(row, 1));
  return {
    header: [...before, ...band],
    body: app.letters === 'big' ? [[], ...far] : message,
    footer: [...step, ...foot],
    focus: 0,
    scrollBy: app.scroll,
    signs: signsOf(app),
    width,
    height: rows,
  };
}

import type { App } from '../app/app.ts';
import { type PinAsk, pinQuestion } from '../app/pin-ask.ts';
import { graphemes } from '../base/columns.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { blank, indentRow } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, textWidth } from './frame.ts';
import { said } from './said.ts';

/** Who signs, what for, and a field that shows nothing but how many characters were typed. */
export function pinScreen(app: App, ask: PinAsk, size: Size): Page {
  const width = textWidth(size);
  const { says, asks } = pinQuestion(app, ask);
  const dots = '•'.repeat(graphemes(ask.typed).length);
  return frame(app, size, {
    body: [
      ...wrapRow([said(says)], width),
      blank,
      ...wrapRow([said('› ', 'bright'), said(asks, 'bright')], width, 2),
      indentRow(field({ text: dots, width: Math.max(1, Math.min(24, width - 2)) }), 2),
    ],
  });
}

import type { App } from '../app/app.ts';
import { helpWords } from '../app/help-words.ts';
import { speak } from '../app/speak.ts';
import type { Next } from '../bundle/next.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { blank, indentRow } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

/** A step that asks for more than this hand does alone: somebody is named who stands by. */
export function standBy(app: App, next: Extract<Next, { readonly want: 'helping' }>, size: Size): Page {
  const width = textWidth(size);
  const { step } = next.at;
  const words = wrapRow([said(helpWords(app, next))], width);
  return frame(app, size, {
    top: [...wrapRow([said(`${step.number}  ${step.title}`)], width, 3), ...gap(size)],
    body: [
      ...words,
      blank,
      ...wrapRow([said('› ', 'bright'), said(speak(app)('Who stands by? Name or badge'), 'bright')], width, 2),
      indentRow(field({ text: app.field, width: Math.max(1, Math.min(30, width - 2)) }), 2),
    ],
    focus: words.length + 1,
    focusRows: 2,
  });
}

import type { App } from '../app/app.ts';
import { bobbinWords } from '../app/bobbin-words.ts';
import { metresSaid } from '../app/metres.ts';
import { speak } from '../app/speak.ts';
import type { Next } from '../bundle/next.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { blank, indentRow } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

/** A step that would run out of bobbin where it shows or cannot be undone: a fresh one goes in first. */
export function freshBobbin(app: App, next: Extract<Next, { readonly want: 'bobbin' }>, size: Size): Page {
  const width = textWidth(size);
  const { step } = next.at;
  const words = bobbinWords(app, next).flatMap((line) => wrapRow([said(line)], width));
  const asked = speak(app)('Metres on the bobbin that is in now (enter: a full one, {full} m)', {
    full: metresSaid(next.full),
  });
  const question = wrapRow([said('› ', 'bright'), said(asked, 'bright')], width, 2);
  return frame(app, size, {
    top: [...wrapRow([said(`${step.number}  ${step.title}`)], width, 3), ...gap(size)],
    body: [...words, blank, ...question, indentRow(field({ text: app.field, width: Math.min(12, width - 2) }), 2)],
    focus: words.length + 1,
    focusRows: question.length + 1,
  });
}

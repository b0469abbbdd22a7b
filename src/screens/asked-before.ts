import type { App } from '../app/app.ts';
import type { Step } from '../procedure/procedure.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { blank, indentRow } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

interface Asked {
  /** Why it is asked, a paragraph each. */
  readonly words: readonly string[];
  readonly question: string;
  /** Columns of the field. */
  readonly field: number;
}

/** Something is asked before the points of a step: why, the question, and a field for the answer. */
export function askedBefore(app: App, step: Step, asked: Asked, size: Size): Page {
  const width = textWidth(size);
  const words = asked.words.flatMap((line) => wrapRow([said(line)], width));
  const question = wrapRow([said('› ', 'bright'), said(asked.question, 'bright')], width, 2);
  const answer = field({ text: app.field, width: Math.max(1, Math.min(asked.field, width - 2)) });
  return frame(app, size, {
    top: [...wrapRow([said(`${step.number}  ${step.title}`)], width, 3), ...gap(size)],
    body: [...words, blank, ...question, indentRow(answer, 2)],
    focus: words.length + 1,
    focusRows: question.length + 1,
  });
}

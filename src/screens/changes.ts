import type { App, Play } from '../app/app.ts';
import type { Difference } from '../procedure/differences.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import type { Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { beside } from './beside.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

/** What is new in the procedure since this hand sewed it last; read before the work goes on. */
export function changes(app: App, play: Play, size: Size): Page {
  const width = textWidth(size);
  const body =
    play.changes.length === 0
      ? wrapRow([said('The file is another one, but nothing in it that you are shown.')], width)
      : play.changes.flatMap((each) => [...difference(each, width), ...gap(size)]);
  return frame(app, size, {
    top: [...wrapRow([said('Changed since you sewed it last')], width), ...gap(size)],
    body,
  });
}

const difference = ({ what, step, text }: Difference, width: number): readonly Row[] =>
  beside(
    said(`${step === null ? 'all   ' : `step ${step}`}  ${WORDS[what]}  `),
    [said(text.replace(/\s+/g, ' '))],
    [],
    width,
  );

const WORDS = { added: 'new    ', removed: 'gone   ', changed: 'changed' } as const;

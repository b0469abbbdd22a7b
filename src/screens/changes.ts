import type { App, Play } from '../app/app.ts';
import { changesOf, kindOfDifference, placeOfDifference, textsOfDifference } from '../app/difference-words.ts';
import { speak } from '../app/speak.ts';
import type { Next } from '../bundle/next.ts';
import type { Difference } from '../procedure/difference.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import type { Row, Style } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import type { Say } from '../words/say.ts';
import { beside } from './beside.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

type ChangesNext = Extract<Next, { readonly want: 'changes' }>;

/** One thing that is new in the procedure since this hand sewed it last; each is read before the work goes on. */
export function changes(app: App, play: Play, next: ChangesNext, size: Size): Page {
  const width = textWidth(size);
  const { difference, of } = changesOf(play, next);
  const say = speak(app);
  const count = say('Changed since you sewed it last: {number} of {of}', { number: next.number, of });
  return frame(app, size, {
    top: [...wrapRow([said(count)], width), ...gap(size)],
    body: difference
      ? [...about(say, difference, play, width), ...gap(size), ...texts(say, difference, width)]
      : wrapRow([said(say('The file is another one, but nothing in it that you are shown.'))], width),
  });
}

function about(say: Say, difference: Difference, { procedure }: Play, width: number): readonly Row[] {
  const title = procedure.steps.find(({ id }) => id === difference.stepId)?.title;
  const where = [placeOfDifference(say, difference), ...(title === undefined ? [] : [title])].join(' ');
  const { of } = textsOfDifference(say, difference);
  return [
    ...wrapRow([said(where)], width),
    ...wrapRow([said(kindOfDifference(say, difference), 'strong')], width),
    ...(of === null ? [] : wrapRow([said(of)], width)),
  ];
}

function texts(say: Say, difference: Difference, width: number): readonly Row[] {
  const { before, after } = textsOfDifference(say, difference);
  const told = (name: string, text: string | null, style: Style): readonly Row[] =>
    text === null ? [] : beside(said(`${name}  `), [said(text.replace(/\s+/g, ' '), style)], [], width);
  return [...told(say('was'), before, 'plain'), ...told(say('now'), after, 'bright')];
}

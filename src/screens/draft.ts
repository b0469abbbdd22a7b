import type { App, Layer } from '../app/app.ts';
import { type DeskDraft, filesToEdit } from '../app/desk.ts';
import { draftState } from '../app/desk-words.ts';
import { differenceLine } from '../app/difference-words.ts';
import { speak } from '../app/speak.ts';
import { limitSaid } from '../app/words.ts';
import type { Finding } from '../base/finding.ts';
import type { Point, Step } from '../procedure/procedure.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import type { Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import type { Say } from '../words/say.ts';
import { frame, gap, textWidth } from './frame.ts';
import { said } from './said.ts';

type DraftLayer = Extract<Layer, { readonly layer: 'draft' }>;

/** A draft by itself: what is to be mended, how it is read, or what changed. It follows every save. */
export function draftScreen(app: App, { file, shows }: DraftLayer, size: Size): Page {
  const draft = app.desk?.drafts.find((each) => each.file === file);
  const width = textWidth(size);
  const say = speak(app);
  if (!draft) return frame(app, size, { body: wrapRow([said(say('{file} is gone: go back.', { file }))], width) });
  const state = draftState(say, draft);
  const files = filesToEdit(draft);
  return frame(app, size, {
    top: [
      ...wrapRow([said(`${draft.procedure.id} ${draft.procedure.title}`, 'strong')], width),
      ...wrapRow([said(`${file} · ${state}`)], width),
      ...(files.length > 1 ? wrapRow([said(say('e opens {files}', { files: files.join(', ') }))], width) : []),
      ...gap(size),
    ],
    body: draftRows(say, draft, shows, width),
  });
}

/** The rows of one way to look at a draft. */
export function draftRows(say: Say, draft: DeskDraft, shows: DraftLayer['shows'], width: number): readonly Row[] {
  switch (shows) {
    case 'findings':
      return draft.findings.length === 0
        ? wrapRow([said(say('Nothing to mend.'), 'good')], width)
        : draft.findings.flatMap((each) => finding(say, each, draft, width));
    case 'reading':
      return draft.procedure.steps.flatMap((step) => reading(say, step, width));
    case 'changes':
      return draft.changes.length === 0
        ? wrapRow([said(nothingChanged(say, draft))], width)
        : draft.changes.flatMap((each) => wrapRow([said(differenceLine(each, say))], width, 2));
  }
}

const nothingChanged = (say: Say, { revision, isReleased }: DeskDraft): string => {
  if (revision === null) return say('No revision of it is released, so there is nothing to compare with.');
  return isReleased
    ? say('The file is revision {revision} as it was released.', { revision })
    : say('The file is not revision {revision}, but nothing in it differs that is shown.', { revision });
};

function finding(
  say: Say,
  { file, line, severity, message, mend }: Finding,
  draft: DeskDraft,
  width: number,
): readonly Row[] {
  return [
    ...wrapRow(
      [
        said(
          `${file === draft.file ? '' : `${file} `}${say('line {line}, {severity}:', { line, severity: say(severity) })} `,
          'strong',
        ),
        said(message),
      ],
      width,
      2,
    ),
    ...wrapRow([said(`  ${mend}`)], width, 2),
  ];
}

/** A step as the program understood it: what is asked, of which kind, inside which limit. */
function reading(say: Say, step: Step, width: number): readonly Row[] {
  return [
    ...wrapRow([said(`${step.number}  ${step.title}`, 'strong')], width, 3),
    ...step.cautions.flatMap(({ word, text }) => wrapRow([said(`   ${say(word)} ${text}`)], width, 5)),
    ...step.points.flatMap((point) => wrapRow([said(`   ${pointWords(say, point)}`)], width, 5)),
  ];
}

function pointWords(say: Say, point: Point): string {
  const limit = 'limit' in point && point.limit ? ` (${limitSaid(say, point.limit)})` : '';
  const options = point.kind === 'choice' ? ` (${point.options.map(({ text }) => text).join(' / ')})` : '';
  const places = 'places' in point && point.places > 1 ? `, ${say('{places} places', { places: point.places })}` : '';
  return `${say(point.kind)}: ${point.text}${places}${limit}${options}`;
}

import type { App, Play } from '../app/app.ts';
import { bobbinLine } from '../app/bobbin-words.ts';
import { FOLDED, isFolded } from '../app/fold.ts';
import { pictureWords } from '../app/picture-words.ts';
import { seamsSaid } from '../app/seam-words.ts';
import { speak, why } from '../app/speak.ts';
import { stepPictures } from '../app/step-pictures.ts';
import type { WantedPoint } from '../bundle/next.ts';
import { firstOpenBlank } from '../bundle/next.ts';
import type { Step } from '../procedure/procedure.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { prose } from '../widgets/prose.ts';
import { blank, leftRight, type Row, rowColumns } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import type { Say } from '../words/say.ts';
import { frame, gap, textWidth } from './frame.ts';
import { openPoint } from './open-point.ts';
import { pictureBeside, wordsBeside } from './picture-beside.ts';
import { donePoint, laterPoint } from './point-list.ts';
import { said } from './said.ts';

/** The screen at the machine: what to do in this step, what is done, and the next action. */
export function sewing(app: App, play: Play, wanted: WantedPoint, size: Size): Page {
  const beside = pictureBeside(app, size);
  const width = beside ? wordsBeside(size.columns) : textWidth(size);
  const { at, point } = wanted;
  const { step } = at;
  const now = step.points.indexOf(point);
  const rowsOf = (index: number): readonly Row[] => {
    const each = step.points[index];
    if (!each) return [];
    if (index === now) return openPoint(app, play, wanted, width);
    return firstOpenBlank(play.bundle, at, each) === undefined
      ? donePoint(speak(app), each, at, play.bundle, app.room, width)
      : laterPoint(speak(app), each, width);
  };
  const blocks = step.points.map((_, index) => rowsOf(index));
  const lead = leadRows(app, step, width);
  const rest = [...factRows(app, step, width), ...(step.number === 1 ? aboutRows(speak(app), play, width) : [])];
  const before = blocks.slice(0, now).flat();
  const open = blocks[now] ?? [];
  // An empty row on either side lets the eye find the next action.
  const body = [
    ...lead,
    ...(lead.length > 0 ? [blank] : []),
    ...before,
    ...(before.length > 0 && open.length > 1 ? gap(size) : []),
    ...open,
    ...(open.length > 1 ? gap(size) : []),
    ...blocks.slice(now + 1).flat(),
    ...(rest.length > 0 ? [blank] : []),
    ...rest,
  ];
  const page = frame(app, size, {
    top: [...stepTitle(speak(app), step, width), ...gap(size)],
    body,
    focus: body.indexOf(open[0] ?? blank),
    focusRows: open.length,
  });
  return beside ? { ...page, beside } : page;
}

/** The explanations of a step, or that they are folded away and how its points are then done. */
function leadRows(app: App, { prose: words }: Step, width: number): readonly Row[] {
  if (isFolded(app)) return wrapRow([said(speak(app)(FOLDED), 'dim')], width);
  return words.trim() === '' ? [] : prose(words, width);
}

/** The number and name of a step, and the warning that it can't be undone. */
function stepTitle(say: Say, { number, title, facts }: Step, width: number): readonly Row[] {
  const name: Row = [said(`${number}  ${title}`)];
  const warning = facts.cannotBeUndone ? [said(say('cannot be undone'), 'strong')] : [];
  if (rowColumns(name) + 2 + rowColumns(warning) <= width) return [leftRight(name, warning, width)];
  return [...wrapRow(name, width, 3), ...(warning.length > 0 ? [leftRight([], warning, width)] : [])];
}

/** What belongs to no step is shown with the first: the rolls on the ticket, the kit, and the words above the steps. */
function aboutRows(say: Say, { bundle, procedure }: Play, width: number): readonly Row[] {
  const kit = procedure.kit.map(({ id, words, count }) => `${id} ${words}${count > 1 ? ` × ${count}` : ''}`);
  const lines = [
    ...(bundle.rolls.length > 0 ? [say('Rolls on the ticket: {rolls}', { rolls: bundle.rolls.join(', ') })] : []),
    ...(kit.length > 0 ? [say('Kit of a set: {kit}', { kit: kit.join(', ') })] : []),
  ];
  const intro = procedure.intro.trim() === '' ? [] : [blank, ...prose(procedure.intro, width)];
  return [...lines.flatMap((line) => wrapRow([said(line, 'dim')], width, 3)), ...intro];
}

/** Seams, pictures as words, and what else is known of the step: below the points, where they take no room from the next action. */
function factRows(app: App, { id, facts }: Step, width: number): readonly Row[] {
  const say = speak(app);
  const bobbin = bobbinLine(app, id);
  const { allowedMinutes, seams, needsSkill } = facts;
  const short = [
    ...(allowedMinutes === null ? [] : [say('Allowed time: {minutes} min', { minutes: allowedMinutes })]),
    ...(needsSkill ? [say('Needs skill: {skill}', { skill: needsSkill })] : []),
  ].join(' · ');
  const lines = [
    ...(seams ? [seamsSaid(say, seams)] : []),
    ...(bobbin === undefined ? [] : [bobbin]),
    ...stepPictures(app).flatMap((picture) => [
      pictureWords(app, picture),
      ...(picture.seen?.is === 'unshown' ? [why(app, picture.seen.why)] : []),
    ]),
    ...(short === '' ? [] : [short]),
  ];
  return lines.flatMap((line) => wrapRow([said(line, 'dim')], width, 3));
}

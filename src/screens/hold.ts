import type { App, Play } from '../app/app.ts';
import { signedWords } from '../app/signed-words.ts';
import { since, when } from '../app/when.ts';
import { type Hold, workedOn } from '../bundle/bundle.ts';
import { nameOf } from '../bundle/room.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { blank, fillRow, type Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { frame, gap, textWidth } from './frame.ts';
import { pointWords } from './point-list.ts';
import { said } from './said.ts';

/** A bundle on hold: what is held, why, since when and by whom, and who may settle it. */
export function hold(app: App, play: Play, held: Hold, size: Size): Page {
  const width = textWidth(size);
  const say = (text: string): readonly Row[] => wrapRow([said(text)], width);
  const long = since(held.at, app.now);
  return frame(app, size, {
    top: [fillRow([said(` ON HOLD  ${held.name}`, 'reverse')], width, 'reverse'), ...gap(size)],
    body: [
      ...wrapRow([said(held.reason, 'bright')], width),
      blank,
      ...say(heldThing(play, held)),
      ...say(`By ${nameOf(app.room, held.by)}, ${when(held.at, app.now)}${long === '' ? '' : ` (${long})`}.`),
      blank,
      ...say(settlers(app, play, held)),
      ...before(app, play).flatMap(say),
    ],
  });
}

/** Holds of this bundle that were settled before, with their signatures. */
const before = ({ room }: App, { bundle }: Play): readonly string[] =>
  bundle.holds.flatMap(({ name, settled }) =>
    settled ? [`Before: ${name}, ${settled.how.as}, ${signedWords(room, 'settled', settled)}.`] : [],
  );

function heldThing({ procedure, bundle }: Play, { set, step, point }: Hold): string {
  const where = procedure.steps.find(({ id }) => id === step);
  const what = where?.points.find(({ id }) => id === point);
  const parts = [
    set === null ? `The whole bundle of ${bundle.sets}` : `Set ${set} of ${bundle.sets}`,
    ...(where ? [`step ${where.number} ${where.title}`] : []),
    ...(what ? [pointWords(what)] : []),
  ];
  return `${parts.join(' · ')}.`;
}

/** Nobody settles a hold on their own work, so only those are named who may. */
function settlers({ room }: App, { bundle }: Play, held: Hold): string {
  const may = [...room.hands.values()].filter(
    ({ id, role, retired }) => role === 'supervisor' && !retired && !workedOn(bundle, id, held.set),
  );
  return may.length === 0
    ? 'Nobody here may settle it: it takes a supervisor who has not worked on it.'
    : `${listed(may.map(({ name }) => name))} may settle it: rework, recut, concession or scrap.`;
}

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;

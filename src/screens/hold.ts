import type { App, Play } from '../app/app.ts';
import { settledWays, signedWords } from '../app/signed-words.ts';
import { speak } from '../app/speak.ts';
import { since, when } from '../app/when.ts';
import { type Hold, workedOn } from '../bundle/bundle.ts';
import { nameOf } from '../bundle/room.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { blank, fillRow, type Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import type { Say } from '../words/say.ts';
import { frame, gap, textWidth } from './frame.ts';
import { pointWords } from './point-list.ts';
import { said } from './said.ts';

/** A bundle on hold: what is held, why, since when and by whom, and who may settle it. */
export function hold(app: App, play: Play, held: Hold, size: Size): Page {
  const width = textWidth(size);
  const say = speak(app);
  const rows = (text: string): readonly Row[] => wrapRow([said(text)], width);
  const long = since(say, held.at, app.now);
  const whose = { name: nameOf(app.room, held.by), when: when(say, held.at, app.now) };
  return frame(app, size, {
    top: [fillRow([said(` ${say('ON HOLD')}  ${held.name}`, 'reverse')], width, 'reverse'), ...gap(size)],
    body: [
      ...wrapRow([said(held.reason, 'bright')], width),
      blank,
      ...rows(heldThing(say, play, held)),
      ...rows(long === '' ? say('By {name}, {when}.', whose) : say('By {name}, {when} ({long}).', { ...whose, long })),
      blank,
      ...rows(settlers(app, play, held)),
      ...before(app, play).flatMap(rows),
    ],
  });
}

/** Holds of this bundle that were settled before, with their signatures. */
const before = (app: App, { bundle }: Play): readonly string[] => {
  const say = speak(app);
  return bundle.holds.flatMap(({ name, settled }) =>
    settled
      ? [
          `${say('Before')}: ${name}, ${say(settledWays[settled.how.as])}, ${signedWords(say, app.room, 'settled', settled)}.`,
        ]
      : [],
  );
};

function heldThing(say: Say, { procedure, bundle }: Play, { set, step, point }: Hold): string {
  const where = procedure.steps.find(({ id }) => id === step);
  const what = where?.points.find(({ id }) => id === point);
  const parts = [
    set === null
      ? say('The whole bundle of {sets}', { sets: bundle.sets })
      : say('Set {set} of {sets}', { set, sets: bundle.sets }),
    ...(where ? [say('step {number} {title}', { number: where.number, title: where.title })] : []),
    ...(what ? [pointWords(say, what)] : []),
  ];
  return `${parts.join(' · ')}.`;
}

/** Nobody settles a hold on their own work, so only those are named who may. */
function settlers(app: App, { bundle }: Play, held: Hold): string {
  const { room } = app;
  const say = speak(app);
  const may = [...room.hands.values()].filter(
    ({ id, role, retired }) => role === 'supervisor' && !retired && !workedOn(bundle, id, held.set),
  );
  return may.length === 0
    ? say('Nobody here may settle it: it takes a supervisor who has not worked on it.')
    : say('{names} may settle it: rework, recut, concession or scrap.', {
        names: may.map(({ name }) => name).join(' / '),
      });
}

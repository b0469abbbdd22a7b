import type { App, Play } from '../app/app.ts';
import { lookedBack } from '../app/lists.ts';
import { checkSigned, signedWords } from '../app/signed-words.ts';
import { speak } from '../app/speak.ts';
import { answerWords, placeOf } from '../app/words.ts';
import { type Check, isGood } from '../bundle/bundle.ts';
import { blanksOf } from '../bundle/next.ts';
import { nameOf } from '../bundle/room.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { Page } from '../widgets/page.ts';
import { indentRow, type Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { beside } from './beside.ts';
import { frame, gap, textWidth } from './frame.ts';
import { pointWords } from './point-list.ts';
import { said } from './said.ts';

/** Everything recorded for this bundle, newest first; what was struck stays readable, struck through, with the reason. */
export function lookBack(app: App, play: Play, size: Size): Page {
  const width = textWidth(size);
  const checks = lookedBack(app);
  const blocks = checks.map((check, index) => entryRows(app, play, check, index === app.chosen, width));
  const before = blocks.slice(0, app.chosen).flat().length;
  return frame(app, size, {
    top: [...wrapRow([said(speak(app)('Looking back at {ticket}', { ticket: play.ticket }))], width), ...gap(size)],
    body: blocks.length === 0 ? [[said(speak(app)('Nothing is recorded yet.'))]] : blocks.flat(),
    focus: before,
    focusRows: blocks[app.chosen]?.length ?? 1,
  });
}

function entryRows(app: App, { procedure }: Play, check: Check, isChosen: boolean, width: number): readonly Row[] {
  const step = procedure.steps.find(({ id }) => id === check.step);
  const point = step?.points.find(({ id }) => id === check.point);
  const style = check.struck ? 'struck' : isChosen ? 'bright' : 'plain';
  const say = speak(app);
  const places = point ? blanksOf(point) : 1;
  const place = places > 1 ? ` · ${say('{place} of {places}', { place: check.place, places })}` : '';
  const by = check.witness === undefined ? '' : ` · ${nameOf(app.room, check.hand)}`;
  const where = `${placeOf(say, check, step?.number)}${place}${by} · ${checkSigned(say, app.room, check)}`;
  const sign = isGood(check) ? '' : '✗ ';
  return [
    ...beside(
      said(isChosen ? ' › ' : '   ', 'bright'),
      [said(point ? pointWords(say, point) : check.point, style)],
      [said(`${sign}${answerWords(say, check)}`, style)],
      width,
    ),
    ...wrapRow([said(`${where}${fate(app, check)}`)], Math.max(1, width - 3)).map((row) => indentRow(row, 3)),
  ];
}

function fate(app: App, { struck, again }: Check): string {
  const say = speak(app);
  if (struck) return ` · ${signedWords(say, app.room, 'struck', struck)}: ${struck.reason}`;
  return again ? ` · ${say('asked again')}` : '';
}

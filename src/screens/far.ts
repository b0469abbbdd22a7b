import type { App, Play } from '../app/app.ts';
import { isFolded } from '../app/fold.ts';
import { speak, why } from '../app/speak.ts';
import { clockFace } from '../app/when.ts';
import { headline } from '../app/words.ts';
import { assertNever } from '../base/assert-never.ts';
import { oneLine } from '../base/text.ts';
import { elapsedSeconds } from '../bundle/elapsed.ts';
import { judgeAnswer } from '../bundle/judge-answer.ts';
import { blanksOf, type WantedPoint } from '../bundle/next.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { big } from '../widgets/big.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { blank, fillRow, indentRow, type Row, rowText } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import type { Say } from '../words/say.ts';
import { footer, rehearsal, signsOf } from './frame.ts';
import { limitWordsOf, pointWords } from './point-list.ts';
import { said } from './said.ts';

/** The next action alone, for a screen further away: at most twelve rows of text, as large as they go. */
export function far(app: App, play: Play, wanted: WantedPoint | 'finish', size: Size): Page {
  const width = Math.max(1, size.columns - 2);
  const foot = footer(app, size);
  const before = rehearsal(app, size.columns);
  const room = Math.max(1, Math.min(MOST, size.rows - foot.length - before.length));
  const answer = answerRows(app, wanted, width, room);
  const wrong = wanted !== 'finish' && wanted.outside ? alarm(speak(app), wanted, width) : [];
  const bounds = limit(speak(app), wanted, width);
  const rest = wanted !== 'finish' && isFolded(app) ? together(speak(app), wanted, width) : [];
  const left = Math.max(1, room - answer.length - wrong.length - bounds.length - rest.length);
  const body = [...wrong, ...big(oneLine(askedWords(app, play, wanted)), width, left), ...bounds, ...answer, ...rest];
  return {
    header: before,
    body: body.map((row) => indentRow(row, 1)),
    footer: foot,
    focus: 0,
    focusRows: body.length,
    scrollBy: app.scroll,
    signs: signsOf(app),
    width: size.columns,
    height: size.rows,
  };
}

const MOST = 12;

/** The points behind this one in a folded step, which is done as a whole: as many as leave the next action half of the screen. */
function together(say: Say, { at, point }: WantedPoint, width: number): readonly Row[] {
  const later = at.step.points.slice(at.step.points.indexOf(point) + 1);
  const rows = later.flatMap((each) =>
    wrapRow([said(say('then {point}', { point: pointWords(say, each) }))], width, 5),
  );
  const shown =
    rows.length <= MOST / 2 - 1
      ? rows
      : [...rows.slice(0, MOST / 2 - 2), [said(say('then more: g shows all of them'))]];
  return shown.length === 0 ? [] : [blank, ...shown];
}

/** Where the value is to lie, for itself, because it is looked at more often than the words. */
function limit(say: Say, wanted: WantedPoint | 'finish', width: number): readonly Row[] {
  const words = wanted === 'finish' ? '' : limitWordsOf(say, wanted.point);
  return words === '' ? [] : [blank, ...big(words, width, 3)];
}

/** Reversed, in drawn letters where they fit. */
function alarm(say: Say, { outside, point }: WantedPoint, width: number): readonly Row[] {
  if (!outside) return [];
  const { by, verdict, unit } = outside;
  const text =
    by === undefined
      ? headline(say, outside)
      : say(verdict === 'above' ? 'OUT: {by} over' : 'OUT: {by} under', {
          by: point.kind === 'count' || unit === null ? by : `${by} ${unit}`,
        });
  const rows = big(text, width, 3);
  return [...rows.map((row) => fillRow([said(rowText(row), 'bad')], width, 'bad')), blank];
}

function askedWords(app: App, play: Play, wanted: WantedPoint | 'finish'): string {
  const say = speak(app);
  if (wanted === 'finish') return say('Count the good sets: of {sets}', { sets: play.bundle.sets });
  const { point, place } = wanted;
  const places = blanksOf(point);
  const which = places > 1 ? ` (${say('{place} of {places}', { place, places })})` : '';
  switch (point.kind) {
    case 'tick':
    case 'written':
      return pointWords(say, point);
    case 'reading':
    case 'count':
      return `${pointWords(say, point)}${which}${point.limit ? '' : ` ${point.unit}`}`;
    case 'choice':
      return `${pointWords(say, point)}: ${point.options.map(({ text }, index) => `${index + 1} ${text}`).join(', ')}`;
    case 'hold point':
      return say('Supervisor: {text}', { text: point.text });
    case 'timed': {
      const seconds = wanted.clock ? elapsedSeconds(wanted.clock, play.bundle.lastAt, app.now) : 0;
      return `${clockFace(seconds)} ${pointWords(say, point)}`;
    }
    case 'computed': {
      const result = judgeAnswer(
        { room: app.room, bundle: play.bundle, procedure: play.procedure, now: app.now },
        wanted,
        '',
      );
      return `${pointWords(say, point)} ${result.ok ? `${result.value.value} ${point.unit}` : why(app, result.error)}`;
    }
    default:
      return assertNever(point);
  }
}

/** What is typed, as large as the question where it can be drawn so. */
function answerRows(app: App, wanted: WantedPoint | 'finish', width: number, room: number): readonly Row[] {
  const kind = wanted === 'finish' ? 'count' : wanted.point.kind;
  switch (kind) {
    case 'reading':
    case 'count':
    case 'written':
    case 'hold point': {
      const drawn = app.field === '' ? [] : big(`${app.field}_`, width, 3);
      return [
        blank,
        ...(drawn.length === 3 && room >= 9 ? drawn : [field({ text: app.field, width: Math.min(30, width) })]),
      ];
    }
    case 'choice': {
      const { point } = wanted === 'finish' ? { point: null } : wanted;
      const option = point?.kind === 'choice' ? point.options[app.chosen] : undefined;
      return option ? [blank, [said(`› ${app.chosen + 1} ${option.text}`, 'bright')]] : [];
    }
    case 'tick':
    case 'timed':
    case 'computed':
      return [];
    default:
      return assertNever(kind);
  }
}

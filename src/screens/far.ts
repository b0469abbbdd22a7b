import type { App, Play } from '../app/app.ts';
import { assertNever } from '../base/assert-never.ts';
import { elapsedSeconds } from '../bundle/elapsed.ts';
import { judgeAnswer } from '../bundle/judge-answer.ts';
import { blanksOf, type WantedPoint } from '../bundle/next.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { big } from '../widgets/big.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { blank, fillRow, indentRow, type Row, rowText, span } from '../widgets/row.ts';
import { footer, rehearsal } from './frame.ts';
import { headline } from './outside.ts';
import { limitOf } from './point-list.ts';
import { clockFace } from './when.ts';

/** The next action alone, for a screen further away: at most twelve rows of text, as large as they go. */
export function far(app: App, play: Play, wanted: WantedPoint | 'finish', size: Size): Page {
  const width = Math.max(1, size.columns - 2);
  const foot = footer(app, size);
  const before = rehearsal(app, size.columns);
  const room = Math.max(1, Math.min(MOST, size.rows - foot.length - before.length));
  const answer = answerRows(app, wanted, width, room);
  const wrong = wanted !== 'finish' && wanted.outside ? alarm(wanted, width) : [];
  const asked = big(askedWords(app, play, wanted), width, Math.max(1, room - answer.length - wrong.length));
  const body = [...wrong, ...asked, ...answer];
  return {
    header: before,
    body: body.map((row) => indentRow(row, 1)),
    footer: foot,
    focus: 0,
    focusRows: body.length,
    scrollBy: app.scroll,
    width: size.columns,
    height: size.rows,
  };
}

const MOST = 12;

/** Reversed, in drawn letters where they fit. */
function alarm({ outside, point }: WantedPoint, width: number): readonly Row[] {
  if (!outside) return [];
  const { by, verdict, unit } = outside;
  const text =
    by === undefined
      ? headline(outside)
      : `OUT: ${by} ${point.kind === 'count' ? '' : (unit ?? '')} ${verdict === 'above' ? 'over' : 'under'}`;
  const rows = big(text.replace(/ +/g, ' '), width, 3);
  return [...rows.map((row) => fillRow([span(rowText(row), 'bad')], width, 'bad')), blank];
}

function askedWords(app: App, play: Play, wanted: WantedPoint | 'finish'): string {
  if (wanted === 'finish') return `Count the good sets: of ${play.bundle.sets}`;
  const { point, place } = wanted;
  const places = blanksOf(point);
  const which = places > 1 ? ` (${place} of ${places})` : '';
  const limit = limitOf(point);
  switch (point.kind) {
    case 'tick':
    case 'written':
      return point.text;
    case 'reading':
    case 'count':
      return `${point.text}${which} ${limit || point.unit}`;
    case 'choice':
      return `${point.text}: ${point.options.map(({ text }, index) => `${index + 1} ${text}`).join(', ')}`;
    case 'hold point':
      return `Supervisor: ${point.text}`;
    case 'timed': {
      const seconds = wanted.clock ? elapsedSeconds(wanted.clock, play.bundle.lastAt, app.now) : 0;
      return `${clockFace(seconds)} ${point.text} ${limit}`;
    }
    case 'computed': {
      const result = judgeAnswer(
        { room: app.room, bundle: play.bundle, procedure: play.procedure, now: app.now },
        wanted,
        '',
      );
      return `${point.text} ${result.ok ? `${result.value.value} ${point.unit}` : result.error.message} ${limit}`;
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
      return option ? [blank, [span(`› ${app.chosen + 1} ${option.text}`, 'bright')]] : [];
    }
    case 'tick':
    case 'timed':
    case 'computed':
      return [];
    default:
      return assertNever(kind);
  }
}

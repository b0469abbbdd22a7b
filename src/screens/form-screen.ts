import type { App, Form } from '../app/app.ts';
import { bobbinCaution } from '../app/bobbin-words.ts';
import { type Question, question } from '../app/form.ts';
import { speak } from '../app/speak.ts';
import { answerWords } from '../app/words.ts';
import { assertNever } from '../base/assert-never.ts';
import { allChecks } from '../bundle/bundle.ts';
import type { Size } from '../terminal/open-terminal.ts';
import { field } from '../widgets/field.ts';
import type { Page } from '../widgets/page.ts';
import { blank, indentRow, type Row } from '../widgets/row.ts';
import { wrapRow } from '../widgets/wrap-row.ts';
import { beside } from './beside.ts';
import { frame, gap, textWidth } from './frame.ts';
import { pointWords } from './point-list.ts';
import { said } from './said.ts';

/** A few questions, one at a time: the one that is asked now, below what has been answered. */
export function formScreen(app: App, form: Form, size: Size): Page {
  const width = textWidth(size);
  const asked = question(app, form);
  const before = answeredRows(app, form, width);
  const now = asked ? questionRows(app, asked, width) : [];
  return frame(app, size, {
    top: [
      ...wrapRow([said(title(app, form))], width),
      ...(form.about === 'bobbin' ? wrapRow([said(bobbinCaution(app))], width) : []),
      ...gap(size),
    ],
    body: [...before, ...(before.length > 0 ? [blank] : []), ...now],
    focus: before.length > 0 ? before.length + 1 + chosenRow(app, asked) : chosenRow(app, asked),
    focusRows: asked?.options ? 1 : now.length,
  });
}

const chosenRow = ({ chosen }: App, asked: Question | undefined): number => (asked?.options ? chosen + 1 : 0);

function title(app: App, { about, entry }: Form): string {
  const say = speak(app);
  const { play } = app;
  switch (about) {
    case 'hold':
      return play?.next.want === 'point'
        ? say('Hold at {point}', { point: pointWords(say, play.next.point) })
        : say('Hold the bundle');
    case 'note':
      return say('Write a note');
    case 'strike': {
      const check = play && allChecks(play.bundle).find(({ seq }) => seq === entry);
      const point =
        check && play.procedure.steps.find(({ id }) => id === check.step)?.points.find(({ id }) => id === check.point);
      return check
        ? say('Strike {value} at {point}', {
            value: answerWords(say, check),
            point: point ? pointWords(say, point) : check.point,
          })
        : say('Strike an entry');
    }
    case 'bobbin':
      return say('Fit another bobbin');
    case 'hand over':
      return say('Hand the bundle over');
    case 'go back': {
      const back = play?.next.want === 'point' ? play.next.at.step.facts.ifOut : null;
      return back ? say('Go back: {text}', { text: back.text }) : say('Go back');
    }
    case 'settle':
      return play?.next.want === 'settling'
        ? say('Settle {name}: {reason}', { name: play.next.hold.name, reason: play.next.hold.reason })
        : say('Settle the hold');
    default:
      return assertNever(about);
  }
}

/** What was answered before, under the words of its question. */
function answeredRows(app: App, form: Form, width: number): readonly Row[] {
  const rows: Row[] = [];
  let answers: Record<string, string> = {};
  for (const name of Object.keys(form.answers)) {
    const asked = question(app, { ...form, answers });
    const answer = form.answers[name] ?? '';
    answers = { ...answers, [name]: answer };
    rows.push(...beside(said('✓ ', 'good'), [said(asked?.words ?? name)], [said(inWords(app, asked, answer))], width));
  }
  return rows;
}

/** Hands, steps and what was chosen are kept by id and read by name. */
function inWords({ room, play }: App, asked: Question | undefined, answer: string): string {
  const option = asked?.options?.find(({ is }) => is === answer);
  if (option) return option.words;
  const hand = [...room.hands.values()].find(({ id }) => id === answer);
  const step = play?.procedure.steps.find(({ id }) => id === answer);
  return hand?.name ?? (step ? `${step.number} ${step.title}` : answer);
}

function questionRows(app: App, { words, options, usual }: Question, width: number): readonly Row[] {
  const asked = wrapRow([said('› ', 'bright'), said(words, 'bright')], width, 2);
  if (options)
    return [
      ...asked,
      ...options.flatMap(({ words: option }, index) => {
        const isChosen = index === app.chosen;
        const style = isChosen ? 'bright' : 'plain';
        return beside(said(`  ${isChosen ? '›' : ' '} ${index + 1}  `, style), [said(option, style)], [], width);
      }),
    ];
  return [
    ...asked,
    indentRow(field({ text: app.field, width: Math.max(1, Math.min(60, width - 2)) }), 2),
    ...(usual ? [indentRow([said(speak(app)('enter alone: {usual}', { usual }))], 2)] : []),
  ];
}

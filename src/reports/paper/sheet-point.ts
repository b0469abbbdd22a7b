import { checkSigned } from '../../app/signed-words.ts';
import { limitSaid } from '../../app/words.ts';
import { assertNever } from '../../base/assert-never.ts';
import { type Check, isConceded, isGood, liveCheck, pointKey, type SetNumber } from '../../bundle/bundle.ts';
import { blanksOf, firstOpenBlank } from '../../bundle/next.ts';
import { nameOf, type Room } from '../../bundle/room.ts';
import { amountWords } from '../../measure/amount-words.ts';
import { formulaWords } from '../../procedure/formula-words.ts';
import type { Point, Step } from '../../procedure/procedure.ts';
import type { Plain, Say } from '../../words/say.ts';
import { type Html, html, nothing, where } from './html.ts';
import type { SheetMatter } from './sheet-matter.ts';
import { signatureLine } from './signature-line.ts';

/** What a point asks, then a place for its answer in each of the sets; what is answered already stands in its place. */
export function pointAnswers(point: Point, step: Step, sets: readonly SetNumber[], matter: SheetMatter): Html {
  const answers = sets.map(
    (set) =>
      html`<span class="answer">${where(set, (n) => html`<span class="set">${matter.say('set {set}', { set: n })}</span> `)}${answer(point, step, set, matter)}</span>`,
  );
  return html`<div class="asks">${asked(matter.say, point)}</div><div class="answers">${answers}</div>`;
}

function asked(say: Say, point: Point): Html {
  switch (point.kind) {
    case 'tick':
    case 'written':
    case 'choice':
      return html`${point.text}`;
    case 'hold point':
      return html`<b>${say('Hold point:')}</b> ${point.text}`;
    case 'reading':
    case 'count':
    case 'timed':
    case 'computed': {
      const formula = point.kind === 'computed' ? html` ${formulaWords(point.formula, (each) => each)} =` : nothing;
      return html`${point.text}${formula} <b class="limit">${point.limit ? limitSaid(say, point.limit) : `${point.unit}, ${say('not judged')}`}</b>`;
    }
    default:
      return assertNever(point);
  }
}

/** Whether each blank of a point has an answer that counts. */
export const isAnswered = (point: Point, step: Step, set: SetNumber, { ticket }: SheetMatter): boolean =>
  ticket !== null && firstOpenBlank(ticket.bundle, { step, set }, point) === undefined;

function answer(point: Point, step: Step, set: SetNumber, { say, ticket, room }: SheetMatter): Html {
  const key = pointKey(set, step.id, point.id);
  const fields = Array.from({ length: blanksOf(point) }, (_, at) => {
    const check = ticket ? liveCheck(ticket.bundle, key, at + 1) : undefined;
    const counts = isGood(check) || (ticket !== null && isConceded(ticket.bundle, key, at + 1));
    return { check, counts };
  });
  const isDone = fields.every(({ counts }) => counts);
  const drawn = fields.map(({ check, counts }) =>
    counts ? filled(point, check) : html`${blank(say, point)}${where(check, (each) => outside(say, each))}`,
  );
  const last = fields.findLast(({ counts }) => counts)?.check;
  const unit = 'unit' in point && !isDone ? html` ${point.unit} ` : nothing;
  return html`${isDone ? html`<span class="box">✓</span> ` : nothing}${drawn}${unit}${last ? html`<span class="when">${doneWords(say, last, room)}</span>` : nothing}`;
}

/** Who answers for it and when; of a hold point both, of what is out of its limit that it was let through. */
function doneWords(say: Say, check: Check, room: Room): string {
  const sewer = check.witness === undefined ? '' : `${nameOf(room, check.hand)}; `;
  return `${sewer}${checkSigned(say, room, check)}${isGood(check) ? '' : `, ${say('by concession')}`}`;
}

function blank(say: Say, point: Point): Html {
  switch (point.kind) {
    case 'tick':
      return html`<span class="box"></span>`;
    case 'reading':
    case 'count':
    case 'computed':
      return html`<span class="blank"></span> `;
    case 'written':
      return html`<span class="line long"></span>`;
    case 'timed':
      return html`${say('from')} <span class="blank"></span> ${say('to')} <span class="blank"></span> = <span class="blank"></span>`;
    case 'choice':
      return html`${point.options.map(
        ({ text, acceptable }) =>
          html`<span class="option"><span class="box"></span> ${acceptable ? html`<b>${text}</b>` : text}</span> `,
      )}`;
    case 'hold point':
      return html`${[say('sewer'), say('second person')].map((who) => signatureLine(say, who))}`;
    default:
      return assertNever(point);
  }
}

/** What was answered; of a tick and of a second person's look there is no more than that it was. */
function filled(point: Point, check: Check | undefined): Html {
  if (point.kind === 'tick' || point.kind === 'hold point' || !check) return nothing;
  return html`<b class="value">${check.unit === null ? check.value : amountWords(check.value, check.unit)}</b> `;
}

/** A value that was not good: it is asked again, and what it was is not forgotten. */
const outside = (say: Say, { value, unit, verdict }: Check): Html =>
  html`<span class="when">(${say('before:')} ${unit === null ? value : amountWords(value, unit)}, ${say(VERDICTS[verdict])})</span> `;

const VERDICTS = {
  within: 'within its limit',
  below: 'under its limit',
  above: 'over its limit',
  unacceptable: 'not accepted',
  'not judged': 'not judged',
} as const satisfies Readonly<Record<Check['verdict'], Plain>>;

import type { Fraction } from 'fraction.js';
import { assertNever } from '../base/assert-never.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { toDecimal } from '../measure/decimal.ts';
import { judge } from '../measure/judge.ts';
import type { Limit } from '../measure/limit.ts';
import { limitWords } from '../measure/limit-words.ts';
import { readQuantity } from '../measure/quantity.ts';
import type { UnitId } from '../measure/unit.ts';
import { evaluate } from '../procedure/evaluate.ts';
import type { Choice } from '../procedure/procedure.ts';
import { elapsed } from './elapsed.ts';
import type { Body } from './entries.ts';
import { namedValues } from './named-values.ts';
import type { WantedPoint } from './next.ts';
import type { BundleSituation } from './situation.ts';

/** What `checked` says of an answer: as typed, as understood, against which limit, with which verdict. */
type Judged = Pick<Body<'checked'>, 'typed' | 'value' | 'unit' | 'limit' | 'verdict' | 'by'>;

/** Understands and judges what was typed at a point; a refusal when it is no answer to that kind of point. */
export function judgeAnswer(situation: BundleSituation, wanted: WantedPoint, typed: string): Result<Judged> {
  const { point } = wanted;
  const answer = typed.trim();
  switch (point.kind) {
    case 'tick':
    case 'hold point':
      return answer === ''
        ? ok({ typed, value: 'done', unit: null, limit: null, verdict: 'not judged' })
        : refuse('tick-only', 'This point is only ticked, so {answer} was not kept: write it as a note.', {
            answer: quoted(answer),
          });
    case 'written':
      if (answer === '') return refuse('answer-missing', 'Write what you see; it can’t be left blank.');
      if (answer.length > LONGEST_ANSWER)
        return refuse('answer-long', 'Keep it to {most} letters, or write a note.', { most: LONGEST_ANSWER });
      return ok({ typed, value: answer, unit: null, limit: null, verdict: 'not judged' });
    case 'choice':
      return choose(point, typed);
    case 'reading':
    case 'count': {
      if (answer === '') return refuse('answer-missing', 'Type what you read, in {unit}.', { unit: point.unit });
      const quantity = readQuantity(answer, point.unit);
      return quantity.ok ? ok(measured(typed, quantity.value.amount, point.unit, point.limit)) : quantity;
    }
    case 'timed': {
      if (situation.paper) {
        const quantity = readQuantity(answer, point.unit);
        return quantity.ok ? ok(measured(typed, quantity.value.amount, point.unit, point.limit)) : quantity;
      }
      if (answer !== '') return refuse('clock-only', 'The program times this point: press enter when the time is up.');
      if (!wanted.clock) return refuse('clock-not-started', 'Start the clock first.');
      return ok(measured('', elapsed(wanted.clock, situation, point.unit), point.unit, point.limit));
    }
    case 'computed': {
      if (answer !== '') return refuse('worked-out', 'The program works this one out: press enter to record it.');
      const value = evaluate(point.formula, namedValues(situation, wanted.at.set, point.unit));
      if (!value.ok)
        return refuse(
          'not-computable',
          'This can’t be worked out from the readings there are: strike the wrong one and measure again, or hold the bundle.',
        );
      return ok(measured('', value.value, point.unit, point.limit));
    }
    default:
      return assertNever(point);
  }
}

const LONGEST_ANSWER = 200;

function choose(point: Choice, typed: string): Result<Judged> {
  const answer = typed.trim().toLowerCase();
  const words = point.options.map((option) => option.text.toLowerCase());
  const starting = words.flatMap((word, index) => (answer !== '' && word.startsWith(answer) ? [index] : []));
  const found = [
    words.indexOf(answer),
    /^\d{1,2}$/.test(answer) ? Number(answer) - 1 : -1,
    starting.length === 1 ? (starting[0] ?? -1) : -1,
  ];
  const option = point.options[found.find((index) => index >= 0 && index < words.length) ?? -1];
  if (!option)
    return refuse('no-such-choice', 'Choose one of: {options}.', {
      options: point.options.map(({ text }, index) => `${index + 1} ${text}`).join(', '),
    });
  const limit = point.options
    .filter((each) => each.acceptable)
    .map((each) => each.text)
    .join(' / ');
  return ok({ typed, value: option.text, unit: null, limit, verdict: option.acceptable ? 'within' : 'unacceptable' });
}

function measured(typed: string, amount: Fraction, unit: UnitId, limit: Limit | null): Judged {
  const verdict = judge(amount, limit);
  const by = verdict.is === 'below' || verdict.is === 'above' ? { by: verdict.by } : {};
  return { typed, value: toDecimal(amount), unit, limit: limit && limitWords(limit), verdict: verdict.is, ...by };
}

const quoted = (text: string): string => `“${text.length > 24 ? `${text.slice(0, 23)}…` : text}”`;

import { seamsSaid } from '../app/seam-words.ts';
import { assertNever } from '../base/assert-never.ts';
import { many } from '../base/many.ts';
import { showHidden } from '../base/text.ts';
import type { Limit } from '../measure/limit.ts';
import { limitWords } from '../measure/limit-words.ts';
import type { Point, Procedure, Step, StepFacts } from '../procedure/procedure.ts';
import { inEnglish } from '../words/say.ts';

/** How the program read a procedure, for people: what is asked in each step, of what kind, and inside which limit. */
export function outlineReport(procedure: Procedure): string {
  const { id, title, sets, work, steps } = procedure;
  const head = `${id}  ${title}\n${many(sets, 'set')} in a bundle, ${work}`;
  return `${showHidden([head, ...steps.map(stepWords)].join('\n\n'))}\n`;
}

function stepWords(step: Step): string {
  const lines = [
    `${step.number}  ${step.title}  (${step.id}, line ${step.line})`,
    ...factWords(step.facts).map((words) => `   ${words}`),
    ...step.cautions.map(({ word, text }) => `   ${word}: ${text}`),
    ...step.points.map(
      (point) => `   - ${point.kind}: ${point.text}${askedWords(point)}  (${point.id}, line ${point.line})`,
    ),
  ];
  return lines.join('\n');
}

function factWords(facts: StepFacts): readonly string[] {
  return [
    facts.scope === 'bundle' ? 'for the whole bundle' : 'for each set',
    facts.allowedMinutes === null ? '' : `allowed time ${facts.allowedMinutes} min`,
    facts.seams === null ? '' : seamsSaid(inEnglish, facts.seams),
    facts.ifOut === null ? '' : `if out: ${facts.ifOut.text}`,
    facts.needsSkill === null ? '' : `needs skill: ${facts.needsSkill}`,
    facts.cannotBeUndone ? 'cannot be undone' : '',
  ].filter((words) => words !== '');
}

function askedWords(point: Point): string {
  switch (point.kind) {
    case 'tick':
    case 'written':
    case 'hold point':
      return '';
    case 'choice':
      return `, ${point.options.map(({ text, acceptable }) => (acceptable ? text : `${text} (not acceptable)`)).join(' / ')}`;
    case 'reading':
    case 'count': {
      const places = point.places > 1 ? `, ${point.places} places` : '';
      const drawn = 'measures' in point && point.measures ? `, of ${point.measures.join(', ')} in the drawing` : '';
      return `${places}, ${limited(point.unit, point.limit)}${drawn}`;
    }
    case 'timed':
    case 'computed':
      return `, ${limited(point.unit, point.limit)}`;
    default:
      return assertNever(point);
  }
}

const limited = (unit: string, limit: Limit | null): string =>
  limit === null ? `${unit}, not judged` : limitWords(limit);

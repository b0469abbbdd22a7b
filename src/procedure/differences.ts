import { many } from '../base/many.ts';
import { limitWords } from '../measure/limit-words.ts';
import { plainText } from './plain-text.ts';
import type { Choice, Point, Procedure, Step } from './procedure.ts';

/** One thing that is new, gone or different between two texts of a procedure, in words for the person who sews it. */
export interface Difference {
  readonly what: 'added' | 'removed' | 'changed';
  /** Number of the step in the newer text; for a removed step, in the older; null for the whole procedure. */
  readonly step: number | null;
  readonly text: string;
}

/** What a hand who knew `before` must know about `after`: the kit, steps with their facts and pictures, cautions, points
 * and limits, paired by their ids. */
export function differences(before: Procedure, after: Procedure): readonly Difference[] {
  const found: Difference[] = [];
  const say = (what: Difference['what'], step: Step | null, text: string): void =>
    void found.push({ what, step: step?.number ?? null, text });
  for (const [was, is] of pairs(wholeWords(before), wholeWords(after))) say('changed', null, `${was} → ${is}`);
  for (const step of after.steps) {
    const old = before.steps.find(({ id }) => id === step.id);
    if (old) betweenSteps(old, step, (what, text) => say(what, step, text));
    else say('added', step, step.title);
  }
  for (const step of before.steps) if (!after.steps.some(({ id }) => id === step.id)) say('removed', step, step.title);
  return found;
}

function betweenSteps(old: Step, step: Step, say: (what: Difference['what'], text: string) => void): void {
  if (old.title !== step.title) say('changed', `${old.title} → ${step.title}`);
  for (const [was, is] of pairs(factWords(old), factWords(step))) say('changed', `${was} → ${is}`);
  for (const caution of step.cautions)
    if (!old.cautions.some((each) => each.word === caution.word && each.text === caution.text))
      say('added', `${caution.word}: ${caution.text}`);
  for (const caution of old.cautions)
    if (!step.cautions.some((each) => each.word === caution.word && each.text === caution.text))
      say('removed', `${caution.word}: ${caution.text}`);
  for (const point of step.points) {
    const was = old.points.find(({ id }) => id === point.id);
    if (!was) say('added', inWords(point));
    else if (inWords(was, point) !== inWords(point, was))
      say('changed', `${inWords(was, point)} → ${inWords(point, was)}`);
  }
  for (const point of old.points) if (!step.points.some(({ id }) => id === point.id)) say('removed', inWords(point));
  if (old.prose.trim() !== step.prose.trim()) say('changed', plainText(step.prose));
}

/** What is told of the whole procedure, in an order that both texts share. */
const wholeWords = ({ title, sets, work, kit, intro }: Procedure): readonly string[] => [
  title,
  `${many(sets, 'set')} in a bundle`,
  work,
  `kit: ${kit.map(({ id, words, count }) => `${id} ${words}${count > 1 ? ` × ${count}` : ''}`).join(', ')}`,
  plainText(intro),
];

/** The facts and pictures of a step, likewise. */
const factWords = ({ facts, pictures }: Step): readonly string[] => [
  facts.scope === 'bundle' ? 'once for the whole bundle' : 'for each set',
  facts.cannotBeUndone ? 'cannot be undone' : 'can be undone',
  `seams: ${facts.seams?.text ?? 'none'}`,
  `if out: ${facts.ifOut?.text ?? 'not said'}`,
  `needs skill: ${facts.needsSkill ?? 'none'}`,
  `allowed time: ${facts.allowedMinutes === null ? 'none' : `${facts.allowedMinutes} min`}`,
  `pictures: ${pictures.map(({ alt, address, bringOut }) => `${alt} (${[address, ...bringOut].join(' ')})`).join(', ') || 'none'}`,
];

const pairs = (before: readonly string[], after: readonly string[]): readonly (readonly [string, string])[] =>
  before.flatMap((was, index) => (was === after[index] ? [] : [[was, after[index] ?? ''] as const]));

/** The number of places is said only where it is not that of the `other`: the words mostly say it already. */
function inWords(point: Point, other?: Point): string {
  const limit = 'limit' in point && point.limit ? `, ${limitWords(point.limit)}` : '';
  const kind =
    point.kind === 'hold point' ? 'hold point: ' : other && other.kind !== point.kind ? `${point.kind}: ` : '';
  const unit = 'unit' in point && !('limit' in point && point.limit) ? `, ${point.unit}` : '';
  const places = other && placesOf(point) !== placesOf(other) ? ` in ${many(placesOf(point), 'place')}` : '';
  const options = point.kind === 'choice' ? choiceWords(point) : '';
  return `${kind}${point.text}${places}${unit}${limit}${options}`;
}

function choiceWords({ options }: Choice): string {
  const words = (of: Choice['options']): string => of.map(({ text }) => text).join(' / ');
  return ` (${words(options)}; accepted: ${words(options.filter(({ acceptable }) => acceptable))})`;
}

const placesOf = (point: Point): number => ('places' in point ? point.places : 1);

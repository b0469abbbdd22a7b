import { assertNever } from '../base/assert-never.ts';
import { showHidden } from '../base/text.ts';
import { limitBounds } from '../measure/limit-words.ts';
import type { Point, Step, StepFacts } from '../procedure/procedure.ts';

/** One thing that a step says, flat enough for a spreadsheet. Members that do not apply are null. */
export interface StepPart {
  readonly part: 'title' | 'fact' | 'caution' | 'picture' | 'text' | 'point';
  /** The kind of a point, or the signal word of a caution. */
  readonly kind: string | null;
  readonly words: string;
  readonly unit: string | null;
  readonly limit: string | null;
  /** Blanks to be filled; 1 where nothing is said. */
  readonly places: number | null;
}

/** All that a step says, in the order in which it is shown. */
export function stepParts({ number, title, facts, cautions, pictures, prose, points }: Step): readonly StepPart[] {
  return [
    part('title', `${number} ${title}`),
    ...factWords(facts).map((words) => part('fact', words)),
    ...cautions.map(({ word, text }) => ({ ...part('caution', text), kind: word })),
    ...pictures.map(({ alt, address }) => part('picture', `${alt} (${address})`)),
    ...(prose.trim() === '' ? [] : [part('text', prose.trim())]),
    ...points.map(pointPart),
  ];
}

/** The same for people; what a terminal would obey in it is shown as a mark. */
export function stepText(parts: readonly StepPart[]): string {
  return showHidden(
    parts
      .map((each, at) => {
        const apart = each.part !== parts[at - 1]?.part && at > 0 ? '\n' : '';
        return `${apart}${lineOf(each)}`;
      })
      .join('\n'),
  );
}

function lineOf({ part: what, kind, words, unit, limit, places }: StepPart): string {
  switch (what) {
    case 'title':
    case 'fact':
    case 'text':
      return words;
    case 'caution':
      return `${kind}: ${words}`;
    case 'picture':
      return `Picture: ${words}`;
    case 'point': {
      const many = places !== null && places > 1 ? `${places} places, ` : '';
      const bounds = unit === null ? (limit ?? '') : limit === null ? `${unit}, not judged` : `${limit} ${unit}`;
      return `- ${kind}: ${words}${bounds === '' ? '' : ` (${many}${bounds})`}`;
    }
    default:
      return assertNever(what);
  }
}

const part = (what: StepPart['part'], words: string): StepPart => ({
  part: what,
  kind: null,
  words,
  unit: null,
  limit: null,
  places: null,
});

function factWords(facts: StepFacts): readonly string[] {
  return [
    facts.scope === 'bundle' ? 'For the whole bundle' : 'For each set',
    ...(facts.seams === null ? [] : [`Seams: ${facts.seams.text}`]),
    ...(facts.allowedMinutes === null ? [] : [`Allowed time: ${facts.allowedMinutes} min`]),
    ...(facts.needsSkill === null ? [] : [`Needs skill: ${facts.needsSkill}`]),
    ...(facts.ifOut === null ? [] : [`If out: ${facts.ifOut.text}`]),
    ...(facts.cannotBeUndone ? ['Cannot be undone'] : []),
  ];
}

function pointPart(point: Point): StepPart {
  const base = { ...part('point', point.text), kind: point.kind };
  switch (point.kind) {
    case 'tick':
    case 'written':
    case 'hold point':
      return base;
    case 'choice': {
      const good = point.options.filter(({ acceptable }) => acceptable);
      const words = `${point.text}: ${point.options.map(({ text }) => text).join(' / ')}`;
      return { ...base, words, limit: good.map(({ text }) => text).join(' / ') };
    }
    case 'reading':
    case 'count':
      return { ...base, unit: point.unit, limit: point.limit && limitBounds(point.limit), places: point.places };
    case 'timed':
    case 'computed':
      return { ...base, unit: point.unit, limit: point.limit && limitBounds(point.limit) };
    default:
      return assertNever(point);
  }
}

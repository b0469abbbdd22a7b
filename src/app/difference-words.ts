import type { Next } from '../bundle/next.ts';
import type { About, Change, Difference } from '../procedure/difference.ts';
import { inEnglish, type Plain, type Say } from '../words/say.ts';
import type { Play } from './app.ts';

/** The change that is to be read now, and how many there are; none where the texts differ in nothing that is shown. */
export function changesOf(
  { changes }: Pick<Play, 'changes'>,
  { number }: Extract<Next, { readonly want: 'changes' }>,
): { readonly difference: Difference | undefined; readonly of: number } {
  return { difference: changes[number - 1], of: Math.max(changes.length, number) };
}

/** Where a difference is: `step 4`, or `everywhere`. */
export const placeOfDifference = (say: Say, { step }: Pick<Difference, 'step'>): string =>
  step === null ? say('everywhere') : say('step {number}', { number: step });

/** What it is, in a few words: `limit tightened`, `new caution`, `step moved`. */
export function kindOfDifference(say: Say, { about, change }: Pick<Difference, 'about' | 'change'>): string {
  return say(CHANGES[change], { thing: say(WORDS[about]) });
}

/** What was, and what is: of a thing that is new or gone only one of them. */
export function textsOfDifference(
  say: Say,
  { about, change, of, before, after }: Difference,
): {
  readonly of: string | null;
  readonly before: string | null;
  readonly after: string | null;
} {
  if (change !== 'moved' && change !== 'moved here') return { of, before, after };
  const place = (at: string | null): string =>
    say(about === 'step' || change === 'moved here' ? 'step {number}' : 'place {number}', { number: at ?? '' });
  return { of, before: place(before), after: place(after) };
}

/** The whole of it on one line: `step 4, limit tightened: Line to edge: 310.5 to 313.5 mm → 311 to 313 mm`. */
export function differenceLine(difference: Difference, say: Say = inEnglish): string {
  const { of, before, after } = textsOfDifference(say, difference);
  const texts = [before, after].filter((text) => text !== null).join(' → ');
  const line = `${placeOfDifference(say, difference)}, ${kindOfDifference(say, difference)}: ${of === null ? '' : `${of}: `}${texts}`;
  return line.replace(/\s+/g, ' ');
}

const WORDS: Readonly<Record<About, Plain>> = {
  title: 'title',
  sets: 'sets in a bundle',
  'order of work': 'order of work',
  'how often cautions are read': 'reading of cautions',
  kit: 'kit',
  introduction: 'introduction',
  step: 'step',
  scope: 'scope',
  'cannot be undone': 'mark that it cannot be undone',
  seams: 'seams',
  'if out': 'way out of a limit',
  skill: 'skill needed',
  'allowed time': 'allowed time',
  words: 'words',
  picture: 'picture',
  caution: 'caution',
  point: 'point',
  limit: 'limit',
};

const CHANGES = {
  added: 'new {thing}',
  removed: '{thing} gone',
  moved: '{thing} moved',
  'moved here': '{thing} moved here',
  reworded: '{thing} reworded',
  changed: '{thing} changed',
  redrawn: '{thing} redrawn',
  tightened: '{thing} tightened',
  widened: '{thing} widened',
  shifted: '{thing} shifted',
} as const satisfies Readonly<Record<Change, string>>;

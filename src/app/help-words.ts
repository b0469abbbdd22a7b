import type { Next } from '../bundle/next.ts';
import { helpers, levelWords } from '../bundle/skill.ts';
import type { App } from './app.ts';

/** Why somebody is to stand by, and who may. */
export function helpWords(
  { room, hand }: Pick<App, 'room' | 'hand'>,
  { skill, level }: Extract<Next, { readonly want: 'helping' }>,
): string {
  const names = (hand === null ? [] : helpers(room, hand, skill)).map(({ name }) => name);
  const who =
    names.length === 0
      ? 'Nobody here does it alone: hold the bundle, or a supervisor enters who can with `walkfoot hand skill`.'
      : `${names.join(' or ')} may stand by.`;
  return `This step needs ${skill}, which you do at level ${level}, ${levelWords[level]}. ${who}`;
}

import type { Next } from '../bundle/next.ts';
import { helpers, levelWords } from '../bundle/skill.ts';
import type { App } from './app.ts';
import { speak } from './speak.ts';

/** Why somebody is to stand by, and who may. */
export function helpWords(
  app: Pick<App, 'room' | 'hand' | 'words'>,
  { skill, level }: Extract<Next, { readonly want: 'helping' }>,
): string {
  const { room, hand } = app;
  const say = speak(app);
  const names = (hand === null ? [] : helpers(room, hand, skill)).map(({ name }) => name);
  const who =
    names.length === 0
      ? say('Nobody here does it alone: hold the bundle, or a supervisor enters who can with `walkfoot hand skill`.')
      : say('{names} may stand by.', { names: names.join(' / ') });
  const words = say(levelWords[level]);
  return `${say('This step needs {skill}, which you do at level {level}, {words}.', { skill, level, words })} ${who}`;
}

import type { Refusal } from '../base/result.ts';
import { type Say, saying, sayRefusal } from '../words/say.ts';
import type { App } from './app.ts';

/** What the screens say, in the words of whoever is signed on; before that, in those of the room. */
export const speak = ({ words, hand }: Pick<App, 'words' | 'hand'>): Say =>
  saying(hand === null ? words.room : words.hand);

/** Why something was refused, likewise. */
export const why = ({ words, hand }: Pick<App, 'words' | 'hand'>, refused: Refusal): string =>
  sayRefusal(hand === null ? words.room : words.hand, refused);

import { type Say, saying } from '../words/say.ts';
import type { App } from './app.ts';

/** What the screens say, in the words of whoever is signed on; before that, in those of the room. */
export const speak = ({ words, hand }: Pick<App, 'words' | 'hand'>): Say =>
  saying(hand === null ? words.room : words.hand);

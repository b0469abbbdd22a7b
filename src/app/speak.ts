import type { HandId } from '../base/brand.ts';
import type { Language } from '../base/language.ts';
import type { Refusal } from '../base/result.ts';
import { type Say, saying, sayRefusal } from '../words/say.ts';
import type { App } from './app.ts';

/** What the screens say, in the words of whoever is signed on; before that, in those of the room. */
export const speak = ({ words, hand }: Pick<App, 'words' | 'hand'>): Say =>
  saying(hand === null ? words.room : words.hand);

/** What a hand reads: their own language, or the room's. */
export const languageOf = ({ room, language }: Pick<App, 'room' | 'language'>, hand: HandId | null): Language =>
  (hand === null ? undefined : room.hands.get(hand)?.language) ?? language;

/** Why something was refused, likewise. */
export const why = ({ words, hand }: Pick<App, 'words' | 'hand'>, refused: Refusal): string =>
  sayRefusal(hand === null ? words.room : words.hand, refused);

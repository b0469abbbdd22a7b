import type { App } from '../app/app.ts';
import type { Language } from '../base/language.ts';
import type { RoomFolder } from '../storage/room-folder.ts';
import { lockMinutes } from '../storage/settings.ts';
import { loadWords } from '../words/load.ts';

/** What the room's file says of a program at work in it. */
export async function asRoomSays({ name: roomName, station, settings }: RoomFolder) {
  const letters = settings.big ? 'big' : 'normal';
  const speaks = await speaking(settings.language);
  return { roomName, station, letters, lockAfter: lockMinutes(settings), ...speaks } as const;
}

/** A program that speaks this language until somebody signs on who reads another. */
export async function speaking(language: Language): Promise<Pick<App, 'language' | 'words'>> {
  return { language, words: { room: await loadWords(language), hand: null } };
}

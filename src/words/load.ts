import type { Language } from '../base/language.ts';
import type { Catalogue } from './say.ts';

/** The catalogue of a language, loaded when somebody reads it; English has none, being what the others are of. */
export async function loadWords(language: Language): Promise<Catalogue | null> {
  switch (language) {
    case 'en':
      return null;
    case 'es':
      return (await import('./spanish.ts')).spanish;
    case 'vi':
      return (await import('./vietnamese.ts')).vietnamese;
    case 'zh-Hans':
      return (await import('./chinese.ts')).chinese;
  }
}

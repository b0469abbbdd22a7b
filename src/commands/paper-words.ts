import type { Language } from '../base/language.ts';
import type { PaperWords } from '../reports/paper/sheet-matter.ts';
import { loadWords } from '../words/load.ts';
import { saying } from '../words/say.ts';

/** What a paper says in this language. */
export const paperWords = async (language: Language): Promise<PaperWords> => ({
  language,
  say: saying(await loadWords(language)),
});

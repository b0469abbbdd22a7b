/** Languages of screens and of procedures, as BCP 47 tags; the first is that of a room that says nothing. */
export const languages = ['en', 'es', 'vi', 'zh-Hans'] as const;
export type Language = (typeof languages)[number];

/** What each language calls itself. */
export const languageNames: Readonly<Record<Language, string>> = {
  en: 'English',
  es: 'español',
  vi: 'Tiếng Việt',
  'zh-Hans': '简体中文',
};

/** The language of a procedure's file by its name: `LIN-2207.es.md` is a Spanish sheet, `LIN-2207.md` a main text, in none of them. */
export function sheetLanguage(file: string): Language | null {
  const tag = /\.([A-Za-z-]+)\.md$/.exec(file)?.[1]?.toLowerCase();
  return languages.find((language) => language.toLowerCase() === tag) ?? null;
}

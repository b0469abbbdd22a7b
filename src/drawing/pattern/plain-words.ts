/**
 * Words of a DXF file as they are read: `\\U+00FC` is a letter that the file's letters lack; `%%d`, `%%p` and `%%c` are the signs for degrees, plus
 * or minus and a diameter, `%%65` a letter by its number; `%%u` and its like change only the looks. From memory.
 */
export const plainWords = (text: string): string =>
  text
    .replace(/\\U\+([0-9A-F]{4})/gi, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)))
    .replace(/%%(\d{1,3}|.)/gu, (_, code: string) =>
      /\d/.test(code) ? String.fromCharCode(Number(code)) : (SIGNS.get(code.toLowerCase()) ?? ''),
    )
    .toWellFormed();

const SIGNS: ReadonlyMap<string, string> = new Map([
  ['d', '°'],
  ['p', '±'],
  ['c', 'Ø'],
  ['%', '%'],
]);

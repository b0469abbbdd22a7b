/** The text with the characters that procedures write by name, such as `&deg;`; other names stay as they are written. */
export function withNamedCharacters(text: string): string {
  return text.replace(/&(\w+);/g, (whole, name: string) => NAMES[name] ?? whole);
}

const NAMES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
  nbsp: '\u00a0',
  deg: '°',
  plusmn: '±',
  times: '×',
  divide: '÷',
  minus: '−',
  middot: '·',
  hellip: '…',
  ndash: '–',
  mdash: '—',
  frac12: '½',
  frac14: '¼',
  frac34: '¾',
};

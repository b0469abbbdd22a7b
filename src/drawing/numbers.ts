/** No place and no length of a drawing is further than this: a kilometre in millimetres. */
export const FURTHEST = 1_000_000;

/** A plain number of SVG, without a unit; `undefined` for anything else and for a number nobody can cut. */
export function readNumber(text: string): number | undefined {
  const tidy = text.trim();
  if (!/^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d{1,3})?$/i.test(tidy) || tidy.length > 40) return undefined;
  const number = Number(tidy);
  return Math.abs(number) <= FURTHEST ? number : undefined;
}

/** Numbers parted by spaces or commas. */
export function readNumbers(text: string): readonly number[] | undefined {
  const numbers: number[] = [];
  let at = 0;
  const tidy = text.trimEnd();
  const pattern = /\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?)\s*,?/giy;
  while (at < tidy.length) {
    pattern.lastIndex = at;
    const found = pattern.exec(tidy);
    const number = found?.[1] === undefined ? undefined : readNumber(found[1]);
    if (found === null || number === undefined) return undefined;
    numbers.push(number);
    at = pattern.lastIndex;
  }
  return tidy.endsWith(',') ? undefined : numbers;
}

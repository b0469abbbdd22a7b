import { closest, distance } from 'fastest-levenshtein';

/** The known word a person most likely meant, or `undefined` when none is near. Case does not count. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  const asked = word.slice(0, LONGEST).toLowerCase();
  if (known.length === 0) return undefined;
  const lower = known.map((one) => one.toLowerCase());
  const found = closest(asked, lower);
  if (distance(asked, found) > Math.max(found.length > 3 ? 2 : 1, Math.floor(found.length / 3))) return undefined;
  return known[lower.indexOf(found)];
}

const LONGEST = 60;

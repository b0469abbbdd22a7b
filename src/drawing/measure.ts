/** A length that a drawing can give. */
export type Measure =
  | { readonly of: 'length' | 'width' | 'depth' | 'd1' | 'd2'; readonly name: string }
  | { readonly of: 'distance'; readonly names: readonly [string, string] };

/**
 * What some words ask to be measured; `undefined` when they are not of one of these forms:
 *
 * - `line-D1`: length of a line, a seam or an edge
 * - `line-D1–A-aft`, or `line-D1 to A-aft`: their distance
 * - `A width`, `A depth`: the size of a piece across and down the drawing
 * - `A d1`, `A d2`: the diagonals of a four-cornered piece, from its upper left corner down, and from its upper right
 */
export function readMeasure(words: string): Measure | undefined {
  const tidy = words.trim().replace(/\s+/g, ' ');
  const pair = /^(\S+?)(?: ?– ?| to )(\S+)$/.exec(tidy);
  if (pair?.[1] && pair[2])
    return isId(pair[1]) && isId(pair[2]) ? { of: 'distance', names: [pair[1], pair[2]] } : undefined;
  const [name = '', size, ...more] = tidy.split(' ');
  if (!isId(name) || more.length > 0) return undefined;
  if (size === undefined) return { of: 'length', name };
  return size === 'width' || size === 'depth' || size === 'd1' || size === 'd2' ? { of: size, name } : undefined;
}

const isId = (text: string): boolean => /^[\p{L}\p{N}][\p{L}\p{N}._-]*$/u.test(text);

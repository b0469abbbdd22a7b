import { distance } from 'fastest-levenshtein';

/** Two texts' lists side by side: what is in both (with where it stood and stands), and what only one of them has. */
export interface Pairs<T> {
  readonly both: readonly Pair<T>[];
  readonly removed: readonly T[];
  readonly added: readonly T[];
}

export interface Pair<T> {
  readonly before: T;
  readonly after: T;
  /** It no longer stands in the order in which the others stand. */
  readonly moved: boolean;
}

/** At least so alike, two texts are taken for one that was reworded. */
const ALIKE = 0.6;
/** Longer texts are compared by their beginning: a title or a point is never that long. */
const LONGEST = 300;

/** Pairs what has the same id; of the rest, what is most alike in words. Both lists keep their order; ids are unique in each. */
export function pairs<T extends { readonly id: string }>(
  before: readonly T[],
  after: readonly T[],
  alike: (a: T, b: T) => number,
): Pairs<T> {
  const ids = new Map(before.map((each) => [each.id, each]));
  const partner = new Map<T, T>();
  for (const each of after) {
    const same = ids.get(each.id);
    if (same) partner.set(each, same);
  }
  const free = (list: readonly T[], taken: ReadonlySet<T>): readonly T[] => list.filter((each) => !taken.has(each));
  const left = free(before, new Set(partner.values()));
  const right = free(after, new Set(partner.keys()));
  const close = left
    .flatMap((a) => right.map((b) => ({ a, b, score: alike(a, b) })))
    .filter(({ score }) => score >= ALIKE)
    .sort((x, y) => y.score - x.score);
  const taken = new Set<T>();
  for (const { a, b } of close) {
    if (taken.has(a) || partner.has(b)) continue;
    taken.add(a);
    partner.set(b, a);
  }
  const known = new Set(partner.values());
  const places = new Map(before.map((each, place) => [each, place]));
  const matched = after.flatMap((each) => {
    const was = partner.get(each);
    return was ? [{ before: was, after: each, place: places.get(was) ?? 0 }] : [];
  });
  const kept = inOrder(matched.map(({ place }) => place));
  return {
    both: matched.map(({ before: was, after: is }, index) => ({ before: was, after: is, moved: !kept.has(index) })),
    removed: free(before, known),
    added: after.filter((each) => !partner.has(each)),
  };
}

/** How alike two texts are, from 0 to 1: the share of letters that need not be changed (Levenshtein), whatever their case. */
export function likeness(a: string, b: string): number {
  const [one, other] = [a, b].map((text) => text.slice(0, LONGEST).toLowerCase().trim());
  if (one === undefined || other === undefined) return 0;
  const longest = Math.max(one.length, other.length);
  return longest === 0 ? 1 : 1 - distance(one, other) / longest;
}

/** Indices of a longest rising run: these stay where they are, so that as few as can be have moved. */
function inOrder(places: readonly number[]): ReadonlySet<number> {
  const length: number[] = [];
  const from: number[] = [];
  for (const [index, place] of places.entries()) {
    length[index] = 1;
    from[index] = -1;
    for (let earlier = 0; earlier < index; earlier++) {
      const longer = (length[earlier] ?? 0) + 1;
      if ((places[earlier] ?? 0) < place && longer > (length[index] ?? 0)) {
        length[index] = longer;
        from[index] = earlier;
      }
    }
  }
  const kept = new Set<number>();
  let index = length.indexOf(Math.max(0, ...length));
  while (index >= 0) {
    kept.add(index);
    index = from[index] ?? -1;
  }
  return kept;
}

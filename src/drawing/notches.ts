import { nearestAlong } from './along.ts';
import type { Drawing, Part } from './drawing.ts';
import { lengthOf } from './length.ts';
import { placeOf } from './place.ts';

interface NotchAt {
  readonly id: string;
  /** Millimetres along the edge from its start. */
  readonly along: number;
}

/** The notches of an edge from its start to its end: those whose id is `notch-`, the edge's id, `-` and a number or word. */
export function notchesOf({ parts }: Drawing, edge: Part): readonly NotchAt[] {
  return parts
    .flatMap(({ id, kind, path }): readonly NotchAt[] => {
      if (kind !== 'notch' || id === null || edgeOfNotch(id) !== edge.id) return [];
      const place = placeOf(path);
      const nearest = place === null ? undefined : nearestAlong(edge.path, place);
      return nearest === undefined ? [] : [{ id, along: nearest.along }];
    })
    .sort((a, b) => a.along - b.along);
}

/** The id of the edge that a notch is on: `A-aft` for `notch-A-aft-1`. */
export const edgeOfNotch = (id: string): string | undefined => /^notch-(.+)-[^-]+$/.exec(id)?.[1];

/** Lengths in millimetres along an edge: from its start to the first notch, from notch to notch, and from the last to its end. */
export function lengthsBetween(notches: readonly NotchAt[], edge: Part): readonly number[] {
  const places = [0, ...notches.map(({ along }) => along), lengthOf(edge.path)];
  return places.slice(1).map((place, index) => place - (places[index] ?? 0));
}

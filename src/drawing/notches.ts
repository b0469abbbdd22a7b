import { type Result, refuse } from '../base/result.ts';
import { nearestAlong } from './along.ts';
import type { Drawing, Part } from './drawing.ts';
import { lengthOf } from './length.ts';
import { placeOf } from './place.ts';

interface NotchAt {
  readonly id: string;
  /** Millimetres along the edge from its start. */
  readonly along: number;
  /** Millimetres from the edge: none or a few, unless the notch was drawn somewhere else. */
  readonly away: number;
}

/** The notches of an edge from its start to its end: those whose id is `notch-`, the edge's id, `-` and a number or word. */
export function notchesOf({ parts }: Drawing, edge: Part): readonly NotchAt[] {
  return parts
    .flatMap(({ id, kind, path }): readonly NotchAt[] => {
      if (kind !== 'notch' || id === null || edgeOfNotch(id) !== edge.id) return [];
      const place = placeOf(path);
      const nearest = place === null ? undefined : nearestAlong(edge.path, place);
      return nearest === undefined ? [] : [{ id, along: nearest.along, away: nearest.away }];
    })
    .sort((a, b) => a.along - b.along);
}

/** The refusal `notch-astray` for a notch that does not lie on the edge that its id names. */
export function astray(notches: readonly NotchAt[], edge: Part): Result<never> | undefined {
  const found = notches.find(({ away }) => away > ASTRAY);
  if (found === undefined) return undefined;
  const why = `${found.id} lies ${Number(found.away.toFixed(1))} mm beside ${edge.id}`;
  return refuse('notch-astray', `${why}; draw it on that edge, or give it the id of the edge it is on.`);
}

/** Deeper than a notch is cut, and a hole that stands for one lies no further in; common practice, no source. */
const ASTRAY = 8;

/** The id of the edge that a notch is on: `A-aft` for `notch-A-aft-1`. */
export const edgeOfNotch = (id: string): string | undefined => /^notch-(.+)-[^-]+$/.exec(id)?.[1];

/** Lengths in millimetres along an edge: from its start to the first notch, from notch to notch, and from the last to its end. */
export function lengthsBetween(notches: readonly NotchAt[], edge: Part): readonly number[] {
  const places = [0, ...notches.map(({ along }) => along), lengthOf(edge.path)];
  return places.slice(1).map((place, index) => place - (places[index] ?? 0));
}

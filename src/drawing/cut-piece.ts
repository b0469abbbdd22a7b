import type { Drawing, Part } from './drawing.ts';
import type { Cut } from './mirrored.ts';
import { nameOf } from './named-part.ts';
import { edgeOfNotch } from './notches.ts';
import { placeOf } from './place.ts';

/**
 * A piece with the places that are notched and marked on it: what stands with it alone in a group, and the notches whose ids name the
 * piece or one of its edges, such as `notch-A-aft-1` for `A`.
 */
export function cutPiece({ parts }: Drawing, piece: Part): Cut {
  const pieces = parts.filter(({ kind }) => kind === 'piece');
  const names = pieces.flatMap((each) => nameOf(each) ?? []);
  /** The longest name counts: a notch of `F-L` is none of `F`. */
  const ownerOf = (edge: string): string | undefined =>
    names
      .filter((name) => edge === name || edge.startsWith(`${name}-`))
      .sort((a, b) => b.length - a.length)
      .at(0);
  const group = piece.groups.findLast((name) => pieces.filter(({ groups }) => groups.includes(name)).length === 1);
  const isOn = ({ id, kind, groups }: Part): boolean => {
    if (kind !== 'notch' && kind !== 'mark') return false;
    if (group !== undefined && groups.includes(group)) return true;
    const edge = kind === 'notch' && id !== null ? edgeOfNotch(id) : undefined;
    return edge !== undefined && ownerOf(edge) === nameOf(piece);
  };
  const places = parts.filter(isOn).map(({ path }) => placeOf(path));
  return { path: piece.path, places: places.filter((place) => place !== null) };
}

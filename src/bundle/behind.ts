import { type Bundle, openHold } from './bundle.ts';
import { currentRelease, type Room, releaseOf, releasesOf } from './room.ts';

/** The revision of its procedure that a new bundle would be opened on now; null while none is in use. */
export const revisionInUse = (room: Room, { procedure }: Bundle): string | null =>
  currentRelease(room, procedure)?.revision ?? null;

/**
 * Whether a supervisor has said that a bundle is finished on its revision, and that still stands: not when another is released since, nor when its own
 * is withdrawn.
 */
export function isKeptOn(room: Room, bundle: Bundle): boolean {
  const said = bundle.keptOn?.seq ?? Number.NEGATIVE_INFINITY;
  const newest = releasesOf(room, bundle.procedure).at(-1)?.seq ?? 0;
  return said > newest && said > (releaseOf(room, bundle)?.withdrawn?.seq ?? 0);
}

/**
 * Whether a bundle at work is on a revision that is no longer in use, and no supervisor has said yet whether it is finished on it or
 * stopped. A bundle on hold is stopped already.
 */
export function isBehind(room: Room, bundle: Bundle): boolean {
  if (!bundle.text || bundle.work === 'finished' || openHold(bundle)) return false;
  return bundle.text.revision !== revisionInUse(room, bundle) && !isKeptOn(room, bundle);
}

import { type Bundle, openHold } from './bundle.ts';
import { currentRelease, type Room } from './room.ts';

/** The revision of its procedure that a new bundle would be opened on now; null while none is in use. */
export const revisionInUse = (room: Room, { procedure }: Bundle): string | null =>
  currentRelease(room, procedure)?.revision ?? null;

/**
 * Whether a bundle at work is on a revision that is no longer in use, and no supervisor has said yet whether it is finished on it or
 * stopped. A bundle on hold is stopped already.
 */
export function isBehind(room: Room, bundle: Bundle): boolean {
  if (!bundle.text || bundle.work === 'finished' || openHold(bundle)) return false;
  const current = revisionInUse(room, bundle);
  return bundle.text.revision !== current && bundle.keptOn?.current !== current;
}

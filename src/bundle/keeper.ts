import type { HandId } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { THE_ROOM } from './entries.ts';
import type { Room } from './room.ts';
import { actor } from './situation.ts';

/** A supervisor adds and retires hands; while there is none, the room itself does. */
export function keeper(room: Room, hand: HandId): Result<unknown> {
  const supervisor = [...room.hands.values()].find(({ role, retired }) => role === 'supervisor' && !retired);
  if (hand !== THE_ROOM) return actor(room, hand, ['supervisor']);
  return supervisor
    ? refuse('keeper', 'A supervisor adds and retires hands here, such as {name}: say who with --hand.', {
        name: supervisor.name,
      })
    : ok(hand);
}

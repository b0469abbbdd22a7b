import { ok, type Result, refuse } from '../base/result.ts';
import type { Hand, Room } from '../bundle/room.ts';

/** The hand meant by a typed name, the beginning of a name, an id or a scanned badge. Retired hands are named as such. */
export function findHand(room: Room, typed: string): Result<Hand> {
  const word = typed.trim().toLowerCase();
  if (word === '') return refuse('hand-missing', 'Type a name, or scan a badge.');
  const hands = [...room.hands.values()];
  const exact = hands.find((hand) => [hand.id, hand.name, hand.badge].some((each) => each?.toLowerCase() === word));
  const starting = exact ? [exact] : hands.filter((hand) => !hand.retired && hand.name.toLowerCase().startsWith(word));
  const [found, other] = starting;
  if (!found)
    return refuse(
      'hand-unknown',
      `Nobody here is called ${typed.trim()}: look at the list, or ask a supervisor to add the hand.`,
    );
  if (other)
    return refuse(
      'hand-unclear',
      `${typed.trim()} could be ${starting.map((hand) => hand.name).join(' or ')}: type more of the name.`,
    );
  if (found.retired) return refuse('hand-retired', `${found.name} is retired and can’t sign on: choose another name.`);
  return ok(found);
}

import { ok, type Result, refuse } from '../base/result.ts';
import type { Hand, Room } from '../bundle/room.ts';
import { sameName } from '../bundle/same-name.ts';

/** The hand meant by a typed name, the beginning of a name, an id or a scanned badge; refuses the retired. */
export function findHand(room: Room, typed: string): Result<Hand> {
  const found = findAnyHand(room, typed);
  return found.ok && found.value.retired
    ? refuse('hand-retired', '{name} is retired and can’t sign on: choose another name.', { name: found.value.name })
    : found;
}

/** The same among all hands ever enrolled, for questions about what was. */
export function findAnyHand(room: Room, typed: string): Result<Hand> {
  const word = typed.trim().normalize('NFC').toLowerCase();
  if (word === '') return refuse('hand-missing', 'Type a name, or scan a badge.');
  const hands = [...room.hands.values()];
  const exact = hands.find((hand) =>
    [hand.id, hand.name, hand.badge].some((each) => each !== null && sameName(each, word)),
  );
  const meant = exact ? [exact] : hands.filter((hand) => !hand.retired && hand.name.toLowerCase().startsWith(word));
  const [found, other] = meant;
  if (!found)
    return refuse(
      'hand-unknown',
      'Nobody here is called {typed}: look at the list, or ask a supervisor to add the hand.',
      { typed: typed.trim() },
    );
  if (other)
    return refuse('hand-unclear', '{typed} could be {names}: type more of the name.', {
      typed: typed.trim(),
      names: meant.map((hand) => hand.name).join(' or '),
    });
  return ok(found);
}

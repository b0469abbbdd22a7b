import { assertNever } from '../base/assert-never.ts';
import { type Result, refuse } from '../base/result.ts';
import type { Command, RoomCommand } from './command.ts';
import { type EntryDraft, roles } from './entries.ts';
import { keeper } from './keeper.ts';
import { actor, record, type Situation } from './situation.ts';

export type PeopleCommand = Extract<RoomCommand, { readonly do: 'set pin' | 'fail pin' }>;

/** Commands that concern what a person proves: their PIN. */
export function decidePeople(
  situation: Situation,
  command: Extract<Command, PeopleCommand>,
): Result<readonly EntryDraft[]> {
  const { room } = situation;
  const { hand, who } = command;
  const person = actor(room, who, roles);
  if (!person.ok) return person;
  switch (command.do) {
    case 'set pin': {
      if (hand !== who) {
        const by = keeper(room, hand);
        if (!by.ok) return by;
        if (!room.pins.has(who))
          return refuse(
            'pin-own-first',
            `${person.value.name} has no PIN yet and sets the first one alone: leave out --hand.`,
          );
      }
      const { salt, hash, n, r, p } = command;
      return record(situation, hand, [{ kind: 'pin-set', body: { hand: who, salt, hash, n, r, p } }]);
    }
    case 'fail pin':
      return record(situation, hand, [{ kind: 'pin-failed', body: { hand: who, for: command.for } }]);
    default:
      return assertNever(command);
  }
}

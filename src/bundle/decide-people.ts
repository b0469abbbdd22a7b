import { assertNever } from '../base/assert-never.ts';
import { type Result, refuse } from '../base/result.ts';
import type { Command, RoomCommand } from './command.ts';
import { type EntryDraft, roles } from './entries.ts';
import { keeper } from './keeper.ts';
import { actor, record, type Situation } from './situation.ts';
import { levels, levelWords } from './skill.ts';

export type PeopleCommand = Extract<
  RoomCommand,
  { readonly do: 'set pin' | 'fail pin' | 'set skill' | 'set language' }
>;

const LONGEST_SKILL = 80;

/** Commands that concern what a person proves: their PIN, and what they can do. */
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
          return refuse('pin-own-first', '{name} has no PIN yet and sets the first one alone: leave out --hand.', {
            name: person.value.name,
          });
      }
      const { salt, hash, n, r, p } = command;
      return record(situation, hand, [{ kind: 'pin-set', body: { hand: who, salt, hash, n, r, p } }]);
    }
    case 'set skill': {
      const by = keeper(room, hand);
      if (!by.ok) return by;
      const skill = command.skill.trim().replace(/\s+/g, ' ').normalize('NFC');
      if (skill === '' || skill.length > LONGEST_SKILL || /\p{C}/u.test(skill))
        return refuse(
          'skill-words',
          'A skill is named as procedures name it behind `Needs skill:`, such as top-stitch vinyl.',
        );
      const level = levels.find((each) => each === command.level);
      if (level === undefined)
        return refuse('skill-level', `A level is ${levels.map((each) => `${each} ${levelWords[each]}`).join(', ')}.`);
      return record(situation, hand, [{ kind: 'skilled', body: { hand: who, skill, level } }]);
    }
    case 'set language': {
      // What somebody reads is theirs to say, or a supervisor's.
      const by = hand === who ? person : keeper(room, hand);
      if (!by.ok) return by;
      return record(situation, hand, [{ kind: 'reads', body: { hand: who, language: command.language } }]);
    }
    case 'fail pin':
      return record(situation, hand, [{ kind: 'pin-failed', body: { hand: who, for: command.for } }]);
    default:
      return assertNever(command);
  }
}

import { assertNever } from '../base/assert-never.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { noRelease } from './barred.ts';
import type { Command, RoomCommand } from './command.ts';
import type { PeopleCommand } from './decide-people.ts';
import { type EntryDraft, THE_ROOM } from './entries.ts';
import { keeper } from './keeper.ts';
import { revisionAfter } from './revision-after.ts';
import { currentRelease, type Hand, nameOf, type Room, releasesOf } from './room.ts';
import { sameName } from './same-name.ts';
import { isSameText } from './same-text.ts';
import { actor, record, type Situation, workers } from './situation.ts';

type Here = Exclude<RoomCommand, PeopleCommand>;

/** Commands that concern the room: its hands, its procedures, its tickets. */
export function decideRoom(situation: Situation, command: Extract<Command, Here>): Result<readonly EntryDraft[]> {
  const { room, bundle } = situation;
  const { hand } = command;
  switch (command.do) {
    case 'enrol': {
      const by = keeper(room, hand);
      if (!by.ok) return by;
      const { who, role, badge } = command;
      const name = command.name.trim().normalize('NFC');
      if (!name || name.length > LONGEST_NAME || HIDDEN.test(name + (badge ?? '')))
        return refuse('hand-words', 'A hand needs a name that can be read, such as Ines: type it again.');
      if (!NAME_ON_PAPER.test(who))
        return refuse('hand-id', 'An id is up to 40 letters, digits, dots and hyphens, such as OP-02: give another.');
      const taken = takenBy(room, command);
      if (taken) return refuse('hand-taken', '{taken}: choose another name, id or badge.', { taken });
      return record(situation, hand, [
        {
          kind: 'enrolled',
          body: {
            hand: who,
            name,
            role,
            ...(badge ? { badge } : {}),
            ...(command.language ? { language: command.language } : {}),
          },
        },
      ]);
    }
    case 'retire': {
      const by = keeper(room, hand);
      if (!by.ok) return by;
      const who = actor(room, command.who, ['sewer', 'supervisor', 'auditor']);
      if (!who.ok) return who;
      const { reason } = command;
      return record(situation, hand, [{ kind: 'retired', body: { hand: command.who, ...(reason ? { reason } : {}) } }]);
    }
    case 'take key': {
      const by = room.keys.length === 0 && hand === THE_ROOM ? ok(hand) : actor(room, hand, ['supervisor']);
      if (!by.ok) return by;
      const { key } = command;
      if (room.keys.at(-1) === key) return refuse('key-same', 'The station signs with this key already: go on.');
      return record(situation, hand, [{ kind: 'keyed', body: { key } }]);
    }
    case 'release': {
      const who = actor(room, hand, ['supervisor']);
      if (!who.ok) return who;
      const { procedure, title, author, supervisors, digest, understood, pictures, sheets = [] } = command;
      if (!title.trim())
        return refuse('title-missing', '{procedure} has no title: write one at the head of its file.', { procedure });
      if (author !== undefined && !room.hands.has(author))
        return refuse(
          'author-unknown',
          '{author}, who is said to have written {procedure}, is no hand of this room: name one.',
          { author, procedure },
        );
      const alone = author === hand;
      if (alone && supervisors === 'several')
        return refuse(
          'own-text',
          '{name} wrote {procedure}: let another supervisor read and release it. A room with one supervisor says so in walkfoot.yaml, `supervisors: one`.',
          { name: nameOf(room, hand), procedure },
        );
      const current = currentRelease(room, procedure);
      if (current && isSameText(current, command))
        return refuse(
          'release-same',
          '{procedure} revision {revision} is this very text: change the file before releasing again.',
          { procedure, revision: current.revision },
        );
      const revision = revisionAfter(releasesOf(room, procedure).at(-1)?.revision);
      return record(situation, hand, [
        {
          kind: 'released',
          body: {
            procedure,
            revision,
            ...(author === undefined ? {} : { author }),
            ...(alone ? { alone } : {}),
            digest,
            understood,
            title,
            pictures,
            ...(sheets.length > 0 ? { sheets } : {}),
          },
        },
      ]);
    }
    case 'withdraw': {
      const who = actor(room, hand, ['supervisor']);
      if (!who.ok) return who;
      const { procedure, revision, reason } = command;
      const release = releasesOf(room, procedure).find((each) => each.revision === revision);
      if (!release || release.withdrawn !== null)
        return refuse(
          'no-such-revision',
          '{procedure} has no revision {revision} in use: look at the released revisions.',
          { procedure, revision },
        );
      if (!reason.trim()) return refuse('reason-missing', 'Say why in a few words.');
      return record(situation, hand, [{ kind: 'withdrawn', body: { procedure, revision, reason } }]);
    }
    case 'make ticket': {
      const { ticket, procedure, sets, rolls } = command;
      const who = hand === THE_ROOM ? ok(hand) : actor(room, hand, workers);
      if (!who.ok) return who;
      if (!NAME_ON_PAPER.test(ticket))
        return refuse(
          'ticket-name',
          'A ticket is named by up to 40 letters, digits, dots and hyphens, such as B-1041.',
        );
      if (bundle)
        return refuse(
          'ticket-taken',
          '{ticket} is a bundle already: a ticket has one bundle, so give this one another name.',
          { ticket },
        );
      if (!currentRelease(room, procedure)) return noRelease(procedure);
      if (!Number.isSafeInteger(sets) || sets < 1 || sets > 999)
        return refuse('sets', 'A bundle holds 1 to 999 sets, not {sets}: say how many with --sets.', { sets });
      const named = rolls.map((roll) => roll.trim()).filter((roll) => roll !== '');
      if (named.some((roll) => roll.length > LONGEST_NAME || HIDDEN.test(roll)))
        return refuse('roll-name', 'A roll is named in up to 80 letters that can be read: type it again.');
      return record(situation, hand, [{ kind: 'ticketed', body: { ticket, procedure, sets, rolls: named } }]);
    }
    case 'sign on': {
      const who = actor(room, hand, ['sewer', 'supervisor', 'auditor']);
      const after = command.after === 'own lock' ? { after: 'lock' as const } : {};
      return who.ok ? record(situation, hand, [{ kind: 'signed-on', body: { role: who.value.role, ...after } }]) : who;
    }
    case 'check gauge': {
      const who = actor(room, hand, workers);
      if (!who.ok) return who;
      const { gauge, reading, fit } = command;
      if (!gauge.trim() || !reading.trim()) return refuse('gauge-words', 'Say which gauge it is and what it read.');
      return record(situation, hand, [{ kind: 'gauge-checked', body: { gauge, reading, fit } }]);
    }
    default:
      return assertNever(command);
  }
}

/** What stands on tickets and in the ledger as a name: nothing a scanner, a shell or a file system would stumble over. */
const NAME_ON_PAPER = /^[\p{L}\p{N}][\p{L}\p{N}._-]{0,39}$/u;

const LONGEST_NAME = 80;

/** Characters that cannot be seen, or only as something else. */
const HIDDEN = /\p{C}/u;

function takenBy(
  room: Room,
  wanted: { readonly who: string; readonly name: string; readonly badge?: string },
): string | undefined {
  const answersTo = (hand: Hand, word: string): boolean =>
    [hand.id, hand.name, hand.badge].some((each) => each !== null && sameName(word, each));
  const words = [wanted.who, wanted.name, wanted.badge].filter((word) => word !== undefined);
  const reserved = words.find((word) => sameName(word, THE_ROOM));
  if (reserved !== undefined) return `${reserved} stands for the room itself`;
  for (const hand of room.hands.values()) {
    const word = words.find((each) => answersTo(hand, each));
    if (word !== undefined) return `${word} is taken by ${hand.name} (${hand.id})`;
  }
  return undefined;
}

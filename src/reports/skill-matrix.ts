import type { Digest, HandId } from '../base/brand.ts';
import { doneAt } from '../bundle/done-at.ts';
import type { RecordedEntry } from '../bundle/entries.ts';
import { currentRelease, type Hand, type Room, releaseOfText } from '../bundle/room.ts';
import { isAlone, isOneShort, type Level, levelOf, skillKey } from '../bundle/skill.ts';
import type { Procedure } from '../procedure/procedure.ts';

/** One operation with everybody who may be at the machine. */
export interface Operation {
  /** In the words of the first procedure that needs it, or of the entry that named it. */
  readonly skill: string;
  /** The steps of procedures in use that need it. */
  readonly steps: readonly { readonly procedure: string; readonly step: number }[];
  readonly hands: readonly Doing[];
}

/** How well a hand does an operation, and when they did it last. */
export interface Doing {
  readonly hand: HandId;
  /** As people of this room tell them apart: with the id where two have one name. */
  readonly name: string;
  readonly level: Level;
  /** A supervisor entered the level; what nobody entered counts as 0. */
  readonly isEntered: boolean;
  /** The day of the hand's last answer in a step that needs it (RFC 3339 full-date, as the station's wall clock had it). */
  readonly lastDay: string | null;
}

/** Who does an operation alone, who with somebody beside, and who of these is one level short of alone. */
export const aloneAt = ({ hands }: Operation): readonly Doing[] => hands.filter(({ level }) => isAlone(level));
export const besideAt = ({ hands }: Operation): readonly Doing[] => hands.filter(({ level }) => !isAlone(level));
export const nextAt = ({ hands }: Operation): readonly Doing[] => hands.filter(({ level }) => isOneShort(level));

interface Sources {
  readonly room: Room;
  /** Procedures by the digest of their understanding, as far as they are kept. */
  readonly texts: ReadonlyMap<Digest, Procedure>;
}

/**
 * Hands against operations: those that steps of the procedures in use need, in the order of the texts, then those that only have
 * a level entered. Auditors and who is retired are at no machine.
 */
export function skillMatrix({ room, texts }: Sources, { dayOf }: LastDays): readonly Operation[] {
  const found = new Map<string, { readonly skill: string; readonly steps: { procedure: string; step: number }[] }>();
  const at = (skill: string) => {
    const key = skillKey(skill);
    const operation = found.get(key) ?? { skill, steps: [] };
    found.set(key, operation);
    return operation;
  };
  for (const procedure of room.releases.keys()) {
    const release = currentRelease(room, procedure);
    for (const { number, facts } of (release && texts.get(release.understood)?.steps) ?? [])
      if (facts.needsSkill !== null) at(facts.needsSkill).steps.push({ procedure, step: number });
  }
  const hands = [...room.hands.values()].filter(({ retired, role }) => !retired && role !== 'auditor');
  for (const { id } of hands) for (const { skill } of room.skills.get(id)?.values() ?? []) at(skill);
  return [...found].map(([key, { skill, steps }]) => ({
    skill,
    steps,
    hands: hands.map((hand) => ({
      hand: hand.id,
      name: toldApart(hand, hands),
      level: levelOf(room, hand.id, skill),
      isEntered: room.skills.get(hand.id)?.has(key) ?? false,
      lastDay: dayOf(hand.id, key),
    })),
  }));
}

const toldApart = ({ id, name }: Hand, hands: readonly Hand[]): string =>
  hands.some((each) => each.id !== id && each.name === name) ? `${name} (${id})` : name;

/** When each hand last did each operation. What was struck later was done all the same. */
export interface LastDays {
  /** Takes note of entries, in any order: a ledger of years is handed over in parts. */
  see(entries: readonly RecordedEntry[]): void;
  /** `key` as `skillKey` makes it; the day as an RFC 3339 full-date, null where there is none. */
  dayOf(hand: HandId, key: string): string | null;
}

export function lastDays({ room, texts }: Sources): LastDays {
  const skills = new Map<Digest, ReadonlyMap<string, string>>();
  const skillsOf = (digest: Digest): ReadonlyMap<string, string> => {
    const known = skills.get(digest);
    if (known) return known;
    const release = releaseOfText(room, digest);
    const steps = (release && texts.get(release.understood)?.steps) ?? [];
    const read = new Map(
      steps.flatMap(({ id, facts }) => (facts.needsSkill === null ? [] : [[id, skillKey(facts.needsSkill)] as const])),
    );
    skills.set(digest, read);
    return read;
  };
  const days = new Map<string, string>();
  return {
    see(entries) {
      for (const entry of entries) {
        if (entry.kind !== 'checked') continue;
        const skill = skillsOf(entry.body.digest).get(entry.body.step);
        const day = doneAt(entry).slice(0, 10);
        const key = `${entry.hand} ${skill}`;
        // A clock that was set back does not make the last day an earlier one.
        if (skill !== undefined && day > (days.get(key) ?? '')) days.set(key, day);
      }
    },
    dayOf: (hand, key) => days.get(`${hand} ${key}`) ?? null,
  };
}

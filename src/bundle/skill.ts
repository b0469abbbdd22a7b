import type { HandId } from '../base/brand.ts';
import type { Hand, Room } from './room.ts';

export const levels = [0, 1, 2, 3, 4] as const;
/** How well a hand does an operation. */
export type Level = (typeof levels)[number];

export const levelWords = {
  0: 'none',
  1: 'in training',
  2: 'with help',
  3: 'alone',
  4: 'can teach',
} as const satisfies Readonly<Record<Level, string>>;

/** What a hand can do, as it was entered, by `skillKey`. */
export type Skills = ReadonlyMap<string, { readonly skill: string; readonly level: Level }>;

/** From here on a hand works without anybody beside. */
const ALONE: Level = 3;

/** The same skill in letters of either case, with however many spaces. */
export const skillKey = (skill: string): string => skill.trim().replace(/\s+/g, ' ').normalize('NFC').toLowerCase();

/** None while nobody has entered another level. */
export const levelOf = (room: Room, hand: HandId, skill: string): Level =>
  room.skills.get(hand)?.get(skillKey(skill))?.level ?? 0;

export const isAlone = (level: Level): boolean => level >= ALONE;

export const doesAlone = (room: Room, hand: HandId, skill: string): boolean => isAlone(levelOf(room, hand, skill));

/** Who could be trained next: one level more, and they work alone. */
export const isOneShort = (level: Level): boolean => level === ALONE - 1;

/** Who may stand by: enrolled, not retired, no auditor, able to do it alone, and not the sewer. */
export const helpers = (room: Room, sewer: HandId, skill: string): readonly Hand[] =>
  [...room.hands.values()].filter(
    ({ id, role, retired }) => !retired && role !== 'auditor' && id !== sewer && doesAlone(room, id, skill),
  );

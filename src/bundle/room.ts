import { assertNever } from '../base/assert-never.ts';
import type { Digest, HandId, ProcedureId, StepId } from '../base/brand.ts';
import type { Language } from '../base/language.ts';
import { fromDecimal, toDecimal } from '../measure/decimal.ts';
import type { RecordedEntry, Role } from './entries.ts';
import type { KnownPin, WrongTries } from './pin.ts';
import { type Skills, skillKey } from './skill.ts';

export interface Hand {
  readonly id: HandId;
  readonly name: string;
  readonly role: Role;
  /** What the hand's badge reads as when scanned. */
  readonly badge: string | null;
  readonly retired: boolean;
  /** What the hand reads; null for whatever the room speaks. */
  readonly language: Language | null;
}

/** A procedure in another language, as it was released with its main text. */
export interface ReleasedSheet {
  readonly language: Language;
  /** Of the text. */
  readonly digest: Digest;
  /** Of the procedure with the sheet's words put in. */
  readonly understood: Digest;
}

export interface Release {
  readonly procedure: ProcedureId;
  readonly revision: string;
  readonly digest: Digest;
  /** Digest of the procedure as the program understood that text. */
  readonly understood: Digest;
  readonly title: string;
  readonly pictures: readonly { readonly address: string; readonly digest: Digest }[];
  readonly sheets: readonly ReleasedSheet[];
  readonly author?: HandId;
  readonly by: HandId;
  readonly at: string;
  readonly seq: number;
  readonly withdrawn: { readonly at: string; readonly seq: number } | null;
}

/** What the room knows beside its bundles: a fold over the entries of the kinds in `roomKinds`. */
export interface Room {
  /** The keys this station has signed with, as C2SP verifier keys, oldest first. */
  readonly keys: readonly string[];
  readonly hands: ReadonlyMap<HandId, Hand>;
  /** Oldest first. */
  readonly releases: ReadonlyMap<ProcedureId, readonly Release[]>;
  /** What each hand played last, by procedure, as it was understood. */
  readonly lastPlayed: ReadonlyMap<HandId, ReadonlyMap<ProcedureId, Digest>>;
  /** Cautions each hand has read since signing on. */
  readonly readThisShift: ReadonlyMap<HandId, ReadonlySet<string>>;
  /** For those who have one. Kept apart from the hands, which are shown. */
  readonly pins: ReadonlyMap<HandId, KnownPin>;
  readonly wrongPins: ReadonlyMap<HandId, WrongTries>;
  readonly skills: ReadonlyMap<HandId, Skills>;
  /** What is left on the bobbin in the machine, mm, a decimal string; null while nobody has said. */
  readonly bobbin: string | null;
  readonly lastHold: number;
  readonly lastConcession: number;
}

export const emptyRoom: Room = {
  keys: [],
  hands: new Map(),
  releases: new Map(),
  lastPlayed: new Map(),
  readThisShift: new Map(),
  pins: new Map(),
  wrongPins: new Map(),
  skills: new Map(),
  bobbin: null,
  lastHold: 0,
  lastConcession: 0,
};

/** The kinds of entry that change a room; a reader of the ledger need not fetch others for `evolveRoom`. */
export const roomKinds = [
  'keyed',
  'enrolled',
  'reads',
  'retired',
  'pin-set',
  'pin-failed',
  'pin-proven',
  'skilled',
  'released',
  'withdrawn',
  'signed-on',
  'opened',
  'resumed',
  'changes-read',
  'caution-read',
  'bobbin-fitted',
  'thread-used',
  'held',
  'settled',
] as const;

type AboutRoom = Extract<RecordedEntry, { readonly kind: (typeof roomKinds)[number] }>;

const isAboutRoom = (entry: RecordedEntry): entry is AboutRoom => roomKinds.some((kind) => kind === entry.kind);

/** The room after one more entry. Entries of other kinds leave it as it is. */
export function evolveRoom(room: Room, entry: RecordedEntry): Room {
  if (!isAboutRoom(entry)) return room;
  switch (entry.kind) {
    case 'enrolled': {
      const { hand, name, role, badge, language = null } = entry.body;
      const known = { id: hand, name, role, badge: badge ?? null, retired: false, language };
      return { ...room, hands: put(room.hands, hand, known) };
    }
    case 'reads': {
      const hand = room.hands.get(entry.body.hand);
      return hand ? { ...room, hands: put(room.hands, hand.id, { ...hand, language: entry.body.language }) } : room;
    }
    case 'keyed':
      return { ...room, keys: [...room.keys, entry.body.key] };
    case 'retired': {
      const hand = room.hands.get(entry.body.hand);
      return hand ? { ...room, hands: put(room.hands, hand.id, { ...hand, retired: true }) } : room;
    }
    case 'pin-set': {
      const { hand, signed: _, ...sealed } = entry.body;
      const pins = put(room.pins, hand, { ...sealed, seq: entry.seq });
      return { ...room, pins, wrongPins: without(room.wrongPins, hand) };
    }
    case 'pin-failed': {
      const { hand } = entry.body;
      const count = (room.wrongPins.get(hand)?.count ?? 0) + 1;
      return { ...room, wrongPins: put(room.wrongPins, hand, { count, lastAt: entry.at }) };
    }
    case 'pin-proven':
      return { ...room, wrongPins: without(room.wrongPins, entry.body.hand) };
    case 'skilled': {
      const { hand, skill, level } = entry.body;
      const known = put(room.skills.get(hand) ?? new Map(), skillKey(skill), { skill, level });
      return { ...room, skills: put(room.skills, hand, known) };
    }
    case 'released': {
      const { procedure, author, sheets = [], signed: _, alone: __, ...rest } = entry.body;
      const release: Release = {
        procedure,
        ...(author === undefined ? {} : { author }),
        ...rest,
        sheets,
        by: entry.hand,
        at: entry.at,
        seq: entry.seq,
        withdrawn: null,
      };
      return { ...room, releases: put(room.releases, procedure, [...releasesOf(room, procedure), release]) };
    }
    case 'withdrawn': {
      const { procedure, revision } = entry.body;
      const withdrawn = { at: entry.at, seq: entry.seq };
      const after = releasesOf(room, procedure).map((r) => (r.revision === revision ? { ...r, withdrawn } : r));
      return { ...room, releases: put(room.releases, procedure, after) };
    }
    case 'signed-on':
      if (entry.body.after === 'lock') return room;
      return { ...room, readThisShift: put(room.readThisShift, entry.hand, new Set<string>()) };
    case 'opened':
    case 'resumed': {
      const { procedure, digest, changedFrom, paper } = entry.body;
      // On paper nobody reads what changed: that waits until they are at the machine.
      if (changedFrom || paper) return room;
      return played(room, entry.hand, procedure, entry.kind === 'opened' ? entry.body.understood : digest);
    }
    case 'changes-read':
      // Known when the last of them is read.
      return entry.body.change === entry.body.of ? played(room, entry.hand, entry.body.procedure, entry.body.to) : room;
    case 'bobbin-fitted':
      return { ...room, bobbin: entry.body.wound };
    case 'thread-used': {
      if (room.bobbin === null) return room;
      const left = fromDecimal(room.bobbin).sub(fromDecimal(entry.body.took));
      return { ...room, bobbin: left.lt(0) ? '0' : toDecimal(left) };
    }
    case 'caution-read': {
      const { digest, step, caution } = entry.body;
      const read = new Set(room.readThisShift.get(entry.hand)).add(cautionKey(digest, step, caution));
      return { ...room, readThisShift: put(room.readThisShift, entry.hand, read) };
    }
    case 'held':
      return { ...room, lastHold: Math.max(room.lastHold, numberIn(entry.body.hold)) };
    case 'settled':
      return entry.body.how.as === 'concession'
        ? { ...room, lastConcession: Math.max(room.lastConcession, numberIn(entry.body.how.name)) }
        : room;
    default:
      return assertNever(entry);
  }
}

export const releasesOf = (room: Room, procedure: ProcedureId): readonly Release[] =>
  room.releases.get(procedure) ?? [];

/** The newest revision. None while it is withdrawn: the one before it was replaced for a reason, and does not come back. */
export function currentRelease(room: Room, procedure: ProcedureId): Release | undefined {
  const newest = releasesOf(room, procedure).at(-1);
  return newest?.withdrawn ? undefined : newest;
}

/** The release a bundle was opened with; undefined before that. */
export const releaseOf = (
  room: Room,
  { procedure, text }: { readonly procedure: ProcedureId; readonly text: { readonly revision: string } | null },
): Release | undefined =>
  text ? releasesOf(room, procedure).find(({ revision }) => revision === text.revision) : undefined;

/** The newest release of exactly this text, or of what it was understood as. */
export const releaseOfText = (room: Room, digest: Digest): Release | undefined =>
  [...room.releases.values()].flat().findLast((each) => each.digest === digest || each.understood === digest);

export const cautionKey = (digest: Digest, step: StepId, caution: number): string => `${digest} ${step} ${caution}`;

/** The hand's name, or the bare id for a hand the room does not know. */
export const nameOf = (room: Room, hand: HandId): string => room.hands.get(hand)?.name ?? hand;

/** A digest of the text alone leaves what they played of it, else stands for its newest release. */
function played(room: Room, hand: HandId, procedure: ProcedureId, digest: Digest): Room {
  const known = room.lastPlayed.get(hand) ?? new Map<ProcedureId, Digest>();
  const last = known.get(procedure);
  const isOfThatText = last !== undefined && releaseOfText(room, last)?.digest === digest;
  const understood = isOfThatText ? last : (releaseOfText(room, digest)?.understood ?? digest);
  const texts = put(known, procedure, understood);
  return { ...room, lastPlayed: put(room.lastPlayed, hand, texts) };
}

const put = <K, V>(map: ReadonlyMap<K, V>, key: K, value: V): ReadonlyMap<K, V> => new Map(map).set(key, value);

function without<K, V>(map: ReadonlyMap<K, V>, key: K): ReadonlyMap<K, V> {
  const rest = new Map(map);
  rest.delete(key);
  return rest;
}

/** The number in a name as the program gives them. One that a person made up with more digits is passed over: counting could never leave it behind. */
const numberIn = (name: string): number => Number(/^[HK]-(\d{1,6})$/.exec(name)?.[1] ?? 0);

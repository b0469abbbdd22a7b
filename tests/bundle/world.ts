import type { Digest, HandId, PointId, ProcedureId, StepId, TicketId } from '../../src/base/brand.ts';
import type { Instant } from '../../src/base/instant.ts';
import type { Result } from '../../src/base/result.ts';
import type { Bundle } from '../../src/bundle/bundle.ts';
import type { Command } from '../../src/bundle/command.ts';
import { decide } from '../../src/bundle/decide.ts';
import { type EntryDraft, type RecordedEntry, readEntry, THE_ROOM } from '../../src/bundle/entries.ts';
import { evolve } from '../../src/bundle/evolve.ts';
import { type Next, next } from '../../src/bundle/next.ts';
import type { Proof } from '../../src/bundle/pin.ts';
import { currentRelease, emptyRoom, evolveRoom, type Room } from '../../src/bundle/room.ts';
import { type PinRule, signatureFor } from '../../src/bundle/signature.ts';
import type { Situation } from '../../src/bundle/situation.ts';
import type { Procedure } from '../../src/procedure/procedure.ts';

/** A ledger in the making with a clock that goes only when told, the texts behind it, and what was folded from it. */
export interface World {
  readonly now: Instant;
  readonly entries: readonly RecordedEntry[];
  readonly texts: ReadonlyMap<Digest, Procedure>;
  readonly room: Room;
  /** The bundle of the one ticket the stories are about. */
  readonly bundle: Bundle | undefined;
  /** Nobody's PIN is asked in stories that are not about it. */
  readonly rule: PinRule;
}

export const TICKET = 'B-1041' as TicketId;
export const LIN = 'LIN-2207' as ProcedureId;
export const ines = 'OP-02' as HandId;
export const jon = 'OP-03' as HandId;
export const gone = 'OP-09' as HandId;
export const vera = 'V-01' as HandId;
export const olaf = 'V-02' as HandId;
export const audit = 'AU-1' as HandId;
export const stranger = 'OP-77' as HandId;

/** Digests are told apart by their last letters: `digest('a')`. */
export const digest = (name: string): Digest => name.padStart(64, '0') as Digest;
export const stepId = (id: string): StepId => id as StepId;
export const pointId = (id: string): PointId => id as PointId;

const MORNING: Instant = { ms: Date.parse('2026-11-25T07:00:00Z'), offset: 60 };

export const emptyWorld: World = {
  now: MORNING,
  entries: [],
  texts: new Map(),
  room: emptyRoom,
  bundle: undefined,
  rule: 'nobody',
};

/** A room with its hands, one released procedure and a ticket of two sets. */
export function worldOf(procedure: Procedure, sets = 2): World {
  const hands: readonly Command[] = [
    { hand: THE_ROOM, do: 'enrol', who: vera, name: 'Vera', role: 'supervisor' },
    { hand: vera, do: 'enrol', who: olaf, name: 'Olaf', role: 'supervisor' },
    { hand: vera, do: 'enrol', who: ines, name: 'Ines', role: 'sewer', badge: 'BADGE-2' },
    { hand: vera, do: 'enrol', who: jon, name: 'Jon', role: 'sewer' },
    { hand: vera, do: 'enrol', who: audit, name: 'Ada', role: 'auditor' },
    { hand: vera, do: 'enrol', who: gone, name: 'Gerd', role: 'sewer' },
    { hand: vera, do: 'retire', who: gone },
    release('a'),
    { hand: vera, do: 'make ticket', ticket: TICKET, procedure: LIN, sets, rolls: ['R-318'] },
  ];
  return hands.reduce(done, withText(emptyWorld, 'a', procedure));
}

export const withText = (world: World, name: string, procedure: Procedure): World => ({
  ...world,
  texts: new Map(world.texts).set(digest(name), procedure),
});

export const release = (name: string, hand: HandId = vera): Extract<Command, { readonly do: 'release' }> => ({
  hand,
  do: 'release',
  procedure: LIN,
  title: 'Cabin-top lining',
  author: ines,
  supervisors: 'several',
  digest: digest(name),
  understood: digest(name),
  pictures: [],
});

/** What the command comes to, and the world after it. */
export function attempt(
  world: World,
  command: Command,
  proof: Proof | null = proofFor(world, command),
): { readonly world: World; readonly result: Result<readonly EntryDraft[]> } {
  const signing = { rule: world.rule, proof };
  const result = decide({ ...situationOf(world, command), signing }, command);
  return { world: result.ok ? result.value.reduce(recorded, world) : world, result };
}

/** Whoever is to sign types the right PIN, unless the story says otherwise. */
function proofFor({ rule, room, bundle }: World, command: Command): Proof | null {
  const asked = signatureFor(rule, room, bundle, command);
  const pin = asked && room.pins.get(asked.hand);
  return asked && pin ? { hand: asked.hand, pin: pin.seq } : null;
}

/** The world a minute after a command that must succeed. */
export function done(world: World, command: Command): World {
  const { world: after, result } = attempt(world, command);
  if (!result.ok) throw new Error(`${command.do} was refused: ${result.error.rule}, ${result.error.message}`);
  return later(after, 60_000);
}

export const later = (world: World, ms: number): World => ({
  ...world,
  now: { ...world.now, ms: world.now.ms + ms },
});

export function situationOf({ room, bundle, texts, now }: World, command?: Command): Situation {
  const other = command?.do === 'make ticket' && command.ticket !== TICKET;
  const digest = bundle?.text?.digest ?? (bundle && currentRelease(room, bundle.procedure)?.digest);
  return { room, bundle: other ? undefined : bundle, procedure: digest && texts.get(digest), now };
}

/** What the bundle wants from this hand; the bundle and its text must be there. */
export function wants(world: World, hand: HandId = ines): Next {
  const { room, bundle, procedure } = situationOf(world);
  if (!bundle || !procedure) throw new Error('there is no bundle to ask');
  return next(procedure, room, bundle, hand);
}

/** Entries go through JSON and the reader, as they do on their way through a ledger. */
function recorded(world: World, draft: EntryDraft): World {
  const { at, hand, kind, body } = draft;
  const raw = { seq: world.entries.length + 1, at, hand, kind, body: JSON.parse(JSON.stringify(body)) as unknown };
  const read = readEntry(raw);
  if (!read.ok) throw new Error(`what was decided can't be read back: ${read.error.message}`);
  return remembered(world, read.value);
}

/** The world with one more entry folded in. */
export function remembered(world: World, entry: RecordedEntry): World {
  const ours = !('ticket' in entry.body) || entry.body.ticket === TICKET;
  return {
    ...world,
    entries: [...world.entries, entry],
    room: evolveRoom(world.room, entry),
    bundle: ours ? evolve(world.bundle, entry) : world.bundle,
  };
}

import type { Digest, TicketId } from '../base/brand.ts';
import type { Clock } from '../base/instant.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { noRelease } from '../bundle/barred.ts';
import type { StationThread } from '../bundle/bobbin.ts';
import type { Bundle } from '../bundle/bundle.ts';
import type { Command } from '../bundle/command.ts';
import { decide } from '../bundle/decide.ts';
import { type EntryDraft, type EntryKind, type RecordedEntry, THE_ROOM } from '../bundle/entries.ts';
import { evolve } from '../bundle/evolve.ts';
import type { Proof } from '../bundle/pin.ts';
import { currentRelease, emptyRoom, evolveRoom, type Room, roomKinds } from '../bundle/room.ts';
import { named } from '../bundle/same-name.ts';
import { type PinRule, type Signature, signatureFor } from '../bundle/signature.ts';
import type { Draft } from '../ledger/entry.ts';
import type { KeyPlace } from '../ledger/key-place.ts';
import { type LedgerStore, StoreTrouble } from '../ledger/ledger-store.ts';
import { type SigningKey, verifierKeyText, verifierOf } from '../ledger/note-key.ts';
import type { Procedure } from '../procedure/procedure.ts';
import { readEntries, understood } from './read-entries.ts';
import { keptProcedure } from './understood.ts';

/** A bundle with everything that happened to it, and the text it is played from. */
export interface Playing {
  readonly bundle: Bundle;
  readonly procedure: Procedure;
  /** The sheet whose words the procedure is in, where it is not its main text. */
  readonly sheet?: Digest;
  /** What the station reckons of its bobbins and of this text's seams, where it does. */
  readonly thread?: StationThread;
}

export interface Attempted {
  readonly entries: readonly RecordedEntry[];
  readonly room: Room;
  /** Null for commands that concern no ticket. */
  readonly playing: Playing | null;
}

/**
 * The ledger as the program plays on it: folded into a room and its bundles, and kept up with what other processes write.
 * Whatever `attempt` returns as done is durable. A broken machine rejects with a `StoreTrouble`.
 */
export interface RoomLedger {
  room(): Room;
  /** Every ticket with its state of work, holds and hand; without the single checks. */
  bundles(): readonly Bundle[];
  /** The ticket that somebody means by what they typed, in letters of either case. */
  ticketNamed(typed: string): TicketId | undefined;
  /** Reads what others have written since. */
  catchUp(): Promise<void>;
  /** Loads one bundle whole. */
  playing(ticket: TicketId): Promise<Result<Playing>>;
  /** `proof`: whose PIN was proven for this command, where it takes a signature. */
  attempt(ticket: TicketId | null, command: Command, proof?: Proof | null): Promise<Result<Attempted>>;
  /** The signature that a command would take as the room now stands. */
  signature(ticket: TicketId | null, command: Command): Signature | undefined;
  /** What the station signs with, once the ledger names it; throws where nothing is signed. */
  key(): Promise<SigningKey>;
  /** The procedure as it was understood at its release, kept under this digest. */
  procedure(understood: Digest): Promise<Result<Procedure>>;
}

/** After these the ledger is signed as it then stands: what was finished, released, settled, or left. */
const sealed: readonly EntryKind[] = ['finished', 'released', 'settled', 'paused'];

/** Kinds of entry that tell where each bundle stands. */
const overviewKinds: readonly EntryKind[] = ['ticketed', 'paused', 'handed-over', 'kept-on', 'finished', ...roomKinds];

export interface LedgerRules {
  /** Where the station's key lies; without it nothing is signed, as in a rehearsal. */
  readonly keys?: KeyPlace;
  /** Whose PIN is asked; of supervisors unless told. */
  readonly pin?: PinRule;
}

/** The station's key is made at the first command, and the ledger then names it before anything else. */
export async function roomLedger(
  store: LedgerStore,
  clock: Clock,
  { keys, pin: rule = 'supervisors' }: LedgerRules = {},
): Promise<RoomLedger> {
  let seq = await store.head();
  let room = emptyRoom;
  const overview = new Map<TicketId, Bundle>();
  const whole = new Map<TicketId, Bundle>();
  const procedures = new Map<Digest, Procedure>();
  /** What the station signs with; null until the first command, and where nothing is signed. */
  let signing: { readonly key: SigningKey; readonly name: string } | null = null;

  for (const entry of await readEntries(store, { kinds: overviewKinds })) if (entry.seq <= seq) happened(entry);

  function happened(entry: RecordedEntry): void {
    room = evolveRoom(room, entry);
    if (!('ticket' in entry.body)) return;
    const { ticket } = entry.body;
    for (const bundles of [
      ...(overviewKinds.includes(entry.kind) ? [overview] : []),
      ...(entry.kind === 'ticketed' ? [] : [whole]),
    ]) {
      const after = evolve(bundles.get(ticket), entry);
      if (after) bundles.set(ticket, after);
    }
  }

  const ticketNamed = (typed: string): TicketId | undefined => named(overview.keys(), typed);

  async function catchUp(): Promise<void> {
    if ((await store.head()) === seq) return;
    for (const entry of await readEntries(store, { after: seq })) {
      happened(entry);
      seq = entry.seq;
    }
  }

  async function bundle(ticket: TicketId): Promise<Bundle | undefined> {
    if (!whole.has(ticket)) {
      let folded: Bundle | undefined;
      for (const entry of await readEntries(store, { ticket })) if (entry.seq <= seq) folded = evolve(folded, entry);
      if (folded) whole.set(ticket, folded);
    }
    return whole.get(ticket);
  }

  async function procedure(understood: Digest): Promise<Result<Procedure>> {
    const known = procedures.get(understood);
    if (known) return ok(known);
    const read = await keptProcedure(store, understood);
    if (read.ok) procedures.set(understood, read.value);
    return read;
  }

  async function playing(ticket: TicketId): Promise<Result<Playing>> {
    const found = await bundle(ticket);
    if (!found)
      return refuse(
        'ticket-unknown',
        'There is no ticket {ticket} here: look at its label, or make one with `walkfoot ticket`.',
        { ticket },
      );
    const understood = (found.text ?? currentRelease(room, found.procedure))?.understood;
    if (!understood) return noRelease(found.procedure);
    const text = await procedure(understood);
    return text.ok ? ok({ bundle: found, procedure: text.value }) : text;
  }

  return {
    room: () => room,
    bundles: () => [...overview.values()],
    ticketNamed,
    catchUp,
    procedure,
    signature: (ticket, command) => signatureFor(rule, room, ticket === null ? undefined : whole.get(ticket), command),
    async playing(ticket) {
      await catchUp();
      return playing(ticket);
    },
    async attempt(ticket, command, proof = null) {
      // Whoever takes another key need not have the one before.
      if (command.do !== 'take key') await keyed();
      const done = await attempt(ticket, command, proof);
      if (done.ok && done.value.entries.some(({ kind }) => sealed.includes(kind))) {
        const key = await keyed();
        if (key) await store.seal(key);
      }
      return done;
    },
    async key() {
      return (await keyed()) ?? unsigned();
    },
  };

  /** Sees to it that the key at hand is the one the ledger names. */
  async function keyed(): Promise<SigningKey | undefined> {
    if (!keys) return undefined;
    if (signing && room.keys.at(-1) === signing.name) return signing.key;
    await catchUp();
    const named = room.keys.at(-1);
    const key = keys.find() ?? (named === undefined ? keys.make() : lost());
    signing = { key, name: verifierKeyText(verifierOf(key)) };
    if (named === signing.name) return key;
    if (named !== undefined) throw otherKey();
    const done = await attempt(null, { do: 'take key', hand: THE_ROOM, key: signing.name });
    // Another process may have named it in the same moment.
    if (!done.ok && room.keys.at(-1) !== signing.name) throw otherKey();
    return key;
  }

  async function attempt(
    ticket: TicketId | null,
    command: Command,
    proof: Proof | null = null,
  ): Promise<Result<Attempted>> {
    for (let tries = 0; tries < MOST_TRIES; tries++) {
      await catchUp();
      const makes = command.do === 'make ticket';
      const here = ticket && !makes ? await playing(ticket) : null;
      if (here && !here.ok) return here;
      const situation = {
        room,
        bundle: makes ? overview.get(ticketNamed(command.ticket) ?? command.ticket) : here?.value.bundle,
        procedure: here?.value.procedure,
        now: clock(),
        signing: { rule, proof },
      };
      const decided = decide(situation, command);
      if (!decided.ok) return decided;
      const appended = await store.append(seq, decided.value.map(asDraft));
      if (appended.outcome === 'moved') continue;
      const entries = appended.entries.map(({ entry }) => understood(entry));
      for (const entry of entries) happened(entry);
      seq += entries.length;
      const after = ticket ? await playing(ticket) : null;
      if (after && !after.ok) return after;
      return ok({ entries, room, playing: after?.value ?? null });
    }
    throw new StoreTrouble('Another program keeps writing to this ledger: close it, then try again.');
  }
}

/** Writers on one ledger overtake each other only while they write, so this many misses in a row means a runaway. */
const MOST_TRIES = 200;

/** To the ledger a body is JSON without a meaning; absent members stay absent. */
const asDraft = ({ at, hand, kind, body }: EntryDraft): Draft => ({ at, hand, kind, body: body as Draft['body'] });

function lost(): never {
  throw new StoreTrouble(
    'The station’s key is gone, so nothing more can be signed: put .walkfoot/station.key back from a copy, or let a supervisor make a new one with `walkfoot station --new-key`.',
  );
}

const otherKey = (): StoreTrouble =>
  new StoreTrouble(
    'The key in .walkfoot/station.key is not the one this ledger names: put the station’s own key back, or let a supervisor make a new one with `walkfoot station --new-key`.',
  );

function unsigned(): never {
  throw new Error('nothing is signed here');
}

import { type App, startApp } from '../../src/app/app.ts';
import { performer } from '../../src/app/perform.ts';
import { type RoomLedger, roomLedger } from '../../src/app/room-ledger.ts';
import { type AppStore, startStore } from '../../src/app/store.ts';
import { understoodText } from '../../src/app/understood.ts';
import type { HandId, ProcedureId, TicketId } from '../../src/base/brand.ts';
import type { Instant } from '../../src/base/instant.ts';
import type { StationThread } from '../../src/bundle/bobbin.ts';
import type { Command } from '../../src/bundle/command.ts';
import { THE_ROOM } from '../../src/bundle/entries.ts';
import type { PinRule } from '../../src/bundle/signature.ts';
import { proofFor } from '../../src/commands/demo/stage.ts';
import type { KeyPlace } from '../../src/ledger/key-place.ts';
import { digestOf } from '../../src/ledger/leaf.ts';
import type { LedgerStore } from '../../src/ledger/ledger-store.ts';
import { memoryLedger } from '../../src/ledger/memory-ledger.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';

/** A clock that stands still until it is moved on. */
function storyClock(start = Date.UTC(2026, 10, 25, 9, 0, 0)): {
  readonly now: () => Instant;
  pass(seconds: number): void;
} {
  let ms = start;
  return {
    now: () => ({ ms, offset: 60 }),
    pass: (seconds) => {
      ms += seconds * 1000;
    },
  };
}

/** Of no PIN that anybody knows: what is told in a room is not typed. */
const SEALED = { salt: '5a'.repeat(16), hash: 'c3'.repeat(32), n: 2, r: 1, p: 1 };

export interface Workroom {
  readonly store: LedgerStore;
  readonly ledger: RoomLedger;
  readonly clock: ReturnType<typeof storyClock>;
  /** Opens one more program on the same ledger. */
  program(of?: Partial<App>): Promise<AppStore>;
  /** How often the bell rang, in any of them. */
  bells(): number;
  release(markdown: string): Promise<void>;
}

/** What a workroom is made with. */
interface Making {
  readonly store?: LedgerStore;
  readonly keys?: KeyPlace;
  /** Whose PIN its programs ask. */
  readonly pin?: PinRule;
  /** What the station reckons of its bobbins. */
  readonly thread?: StationThread;
  /** Vera has a PIN, and what is told of her is signed with it. */
  readonly signed?: true;
}

/** A room, in memory unless it is given a ledger: Ines and Tomas sew, Vera supervises; Ines sews sleeves alone; one released procedure, one ticket B-1 with two sets. */
export async function workroom(
  markdown: string,
  { store = memoryLedger('SEW-1'), keys, pin = 'nobody', thread, signed }: Making = {},
): Promise<Workroom> {
  const clock = storyClock();
  const ledger = await roomLedger(store, clock.now, { ...(keys && { keys }), pin: signed ? 'supervisors' : 'nobody' });
  let bells = 0;
  let salts = 0;
  await done({ do: 'enrol', hand: THE_ROOM, who: 'OP-02' as HandId, name: 'Ines', role: 'sewer', badge: '4711' });
  await done({ do: 'enrol', hand: THE_ROOM, who: 'OP-03' as HandId, name: 'Tomas', role: 'sewer' });
  await done({ do: 'enrol', hand: THE_ROOM, who: 'V-01' as HandId, name: 'Vera', role: 'supervisor' });
  if (signed) await done({ do: 'set pin', hand: 'V-01' as HandId, who: 'V-01' as HandId, ...SEALED });
  const skill = { skill: 'sleeve to line', level: 3 } as const;
  await done({ do: 'set skill', hand: 'V-01' as HandId, who: 'OP-02' as HandId, ...skill });
  await release(markdown);
  await done({
    do: 'make ticket',
    hand: THE_ROOM,
    ticket: 'B-1' as TicketId,
    procedure: 'T-1' as ProcedureId,
    sets: 2,
    rolls: [],
  });

  async function done(command: Command): Promise<void> {
    const made = await ledger.attempt(null, command, proofFor(ledger, null, command));
    if (!made.ok) throw new Error(made.error.message);
  }

  async function release(text: string): Promise<void> {
    const { procedure, findings } = readProcedure(text, 'T-1.md');
    // Screens must bear what hides, too: a text understood by an older version may hold it.
    const [wrong] = findings.filter(({ rule }) => rule !== 'hidden-character');
    if (wrong) throw new Error(JSON.stringify(wrong));
    const bytes = new TextEncoder().encode(text);
    const digest = digestOf(bytes);
    const understood = understoodText(procedure, 'procedures/T-1.md');
    await store.keep([{ digest, name: 'procedures/T-1.md', bytes }, understood]);
    await done({
      do: 'release',
      hand: 'V-01' as HandId,
      procedure: procedure.id,
      title: procedure.title,
      author: 'OP-02' as HandId,
      supervisors: 'several',
      digest,
      understood: understood.digest,
      pictures: [],
    });
  }

  return {
    store,
    ledger,
    clock,
    release,
    bells: () => bells,
    async program(of = {}) {
      const own = await roomLedger(store, clock.now, { pin });
      const program: AppStore = startStore(
        {
          ...startApp({
            purpose: 'record',
            home: 'station',
            roomName: 'Room',
            station: 'SEW-1',
            now: clock.now(),
            room: own.room(),
            bundles: own.bundles(),
            letters: 'normal',
            bound: null,
            lockAfter: null,
            language: 'en',
            words: { room: null, hand: null },
          }),
          ...of,
        },
        clock.now,
        performer(
          own,
          () => void bells++,
          () => program.app(),
          (bytes) => new Uint8Array(bytes).fill(++salts),
          async () => thread,
        ),
      );
      return program;
    },
  };
}

/** A small procedure with every turn a bundle can take. */
export const smallProcedure = `---
procedure: T-1
title: Small lining
sets: 2
---

# Small lining

## Count the kit

- For the whole bundle

- [ ] Pieces ____ pcs (4)
- [ ] Shade ____ (**match** / lighter / darker)

## Sew the sleeve

- Cannot be undone
- If out: back to Sew the sleeve

> **WARNING** Needle. It can go through your finger. Take your foot off the treadle.

Raw edges to the line.

- [ ] Edges on the line
- [ ] Line to edge ____ ____ mm (312 ±1.5)
- [ ] **Hold point** looked over
`;

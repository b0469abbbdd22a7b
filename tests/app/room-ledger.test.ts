import { describe, expect, test } from 'vitest';
import { roomLedger } from '../../src/app/room-ledger.ts';
import type { HandId, TicketId } from '../../src/base/brand.ts';
import { openCheckpoint } from '../../src/ledger/checkpoint.ts';
import type { KeyPlace } from '../../src/ledger/key-place.ts';
import type { LedgerStore } from '../../src/ledger/ledger-store.ts';
import {
  newSigningKey,
  readVerifierKey,
  type SigningKey,
  verifierKeyText,
  verifierOf,
} from '../../src/ledger/note-key.ts';
import { smallProcedure, workroom } from './workroom.ts';

const ines = 'OP-02' as HandId;
const ticket = 'B-1' as TicketId;

test('another program that writes first only makes this one decide again', async () => {
  const { store, ledger, clock } = await workroom(smallProcedure);
  let overtaken = 0;
  const slow: LedgerStore = {
    ...store,
    station: store.station,
    append: async (head, drafts) => {
      if (overtaken++ < 3) await ledger.attempt(null, { do: 'sign on', hand: ines });
      return store.append(head, drafts);
    },
  };
  const second = await roomLedger(slow, clock.now);
  const done = await second.attempt(ticket, { do: 'open', hand: ines });
  expect(done.ok).toBe(true);
  const kinds = (await store.read({})).map(({ entry }) => entry.kind);
  expect(kinds.slice(-4)).toEqual(['signed-on', 'signed-on', 'signed-on', 'opened']);
});

test('what became impossible meanwhile is refused, not written', async () => {
  const { store, ledger, clock } = await workroom(smallProcedure);
  const second = await roomLedger(store, clock.now);
  await ledger.attempt(ticket, { do: 'open', hand: ines });
  const late = await second.attempt(ticket, { do: 'open', hand: 'OP-03' as HandId });
  expect(late).toMatchObject({ ok: false, error: { rule: 'opened-already' } });
});

test.each([1, 2])('a bundle of which the ledger finds all but its entry %i is not played', async (lost) => {
  const { store, ledger, clock } = await workroom(smallProcedure);
  await ledger.attempt(ticket, { do: 'open', hand: ines });
  await ledger.attempt(ticket, { do: 'pause', hand: ines });
  await ledger.attempt(ticket, { do: 'resume', hand: ines });
  const damaged: LedgerStore = {
    ...store,
    read: async (filter) => (await store.read(filter)).filter((_, at) => filter.ticket !== ticket || at !== lost - 1),
  };
  const second = await roomLedger(damaged, clock.now);
  await expect(second.playing(ticket)).rejects.toThrow(/^Entries of B-1 are missing, so the ledger is damaged: stop/);
});

describe('the station’s key', () => {
  const signOn = { do: 'sign on', hand: ines } as const;
  /** A room whose ledger signs; `keys` is its key file, in memory. */
  async function signing() {
    const { store, clock } = await workroom(smallProcedure);
    let file: SigningKey | undefined;
    const keys: KeyPlace = {
      find: () => file,
      make: () => (file ??= newSigningKey('SEW-1')),
      put: (key) => {
        file = key;
      },
    };
    const open = () => roomLedger(store, clock.now, { keys, pin: 'nobody' });
    const named = async () => (await store.read({ kinds: ['keyed'] })).map(({ entry }) => String(entry.body.key));
    return { store, keys, open, named, lose: () => (file = undefined) };
  }
  /** Who signed each checkpoint, and for how many entries. */
  const sizes = async (store: LedgerStore, vkey: string) =>
    (await store.checkpoints()).map((note) => {
      const key = readVerifierKey(vkey);
      const read = key.ok ? openCheckpoint(note, key.value) : key;
      return read.ok ? read.value.size : read.error.rule;
    });

  test('is made and named at the first command, and signs after leaving and releasing', async () => {
    const { store, open, named, keys } = await signing();
    const ledger = await open();
    expect(keys.find()).toBeUndefined();
    await ledger.attempt(null, signOn);
    const [vkey = ''] = await named();
    expect(vkey).toMatch(/^SEW-1\+/);
    expect(await store.checkpoints()).toEqual([]);
    await ledger.attempt(ticket, { do: 'open', hand: ines });
    await ledger.attempt(ticket, { do: 'pause', hand: ines });
    expect(await sizes(store, vkey)).toEqual([(await store.head()) + 1]);
    const second = await open();
    await second.attempt(ticket, { do: 'resume', hand: ines });
    expect(await named()).toEqual([vkey]);
  });

  test('is made once by two programs that start together', async () => {
    const { open, named } = await signing();
    const both = [await open(), await open()];
    await Promise.all(both.map((ledger) => ledger.attempt(null, signOn)));
    expect(await named()).toHaveLength(1);
  });

  test('lost or another’s stops the work with the way out, and a supervisor’s new one lets it go on', async () => {
    const { store, open, named, lose, keys } = await signing();
    const first = await open();
    await first.attempt(null, signOn);
    lose();
    const second = await open();
    const head = await store.head();
    await expect(second.attempt(null, signOn)).rejects.toThrow('walkfoot station --new-key');
    keys.put(newSigningKey('SEW-1'));
    await expect(second.attempt(null, signOn)).rejects.toThrow('is not the one this ledger names');
    expect(await store.head()).toBe(head);
    const vera = 'V-01' as HandId;
    const fresh = newSigningKey('SEW-1');
    const key = verifierKeyText(verifierOf(fresh));
    expect((await second.attempt(null, { do: 'take key', hand: vera, key })).ok).toBe(true);
    keys.put(fresh);
    expect((await named()).at(-1)).toBe(key);
    expect((await second.attempt(null, signOn)).ok).toBe(true);
    // The program that ran all the while takes the new key up as well.
    await first.attempt(ticket, { do: 'open', hand: ines });
    await first.attempt(ticket, { do: 'pause', hand: ines });
    expect((await sizes(store, key)).at(-1)).toBe((await store.head()) + 1);
  });
});

test('an entry of a kind from a later version stops the program with a sentence', async () => {
  const { store, ledger } = await workroom(smallProcedure);
  await store.append(await store.head(), [
    { at: '2026-11-25T10:00:00+01:00', hand: 'OP-02', kind: 'welded', body: {} },
  ]);
  await expect(ledger.catchUp()).rejects.toThrow('use a newer version');
});

import { expect, test } from 'vitest';
import { roomLedger } from '../../src/app/room-ledger.ts';
import type { HandId, TicketId } from '../../src/base/brand.ts';
import type { LedgerStore } from '../../src/ledger/ledger-store.ts';
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

test('an entry of a kind from a later version stops the program with a sentence', async () => {
  const { store, ledger } = await workroom(smallProcedure);
  await store.append(await store.head(), [
    { at: '2026-11-25T10:00:00+01:00', hand: 'OP-02', kind: 'welded', body: {} },
  ]);
  await expect(ledger.catchUp()).rejects.toThrow('use a newer version');
});

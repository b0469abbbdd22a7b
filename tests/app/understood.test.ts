import { expect, test } from 'vitest';
import { keptProcedure, understoodText } from '../../src/app/understood.ts';
import { digestOf } from '../../src/ledger/leaf.ts';
import { memoryLedger } from '../../src/ledger/memory-ledger.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { smallProcedure } from './workroom.ts';

const { procedure } = readProcedure(smallProcedure, 'T-1.md');

test('a bundle is played as the text was understood when it was released', async () => {
  const store = memoryLedger('SEW-1');
  const understood = understoodText(procedure, 'T-1.md');
  await store.keep([understood]);
  expect(await keptProcedure(store, understood.digest)).toEqual({ ok: true, value: procedure });
});

test.each(['', '{"v":1', '[]', 'null', '{"v":2,"procedure":{}}'])(
  'what this program did not write is refused: %j',
  async (text) => {
    const store = memoryLedger('SEW-1');
    const bytes = new TextEncoder().encode(text);
    await store.keep([{ digest: digestOf(bytes), name: 'T-1.md as understood', bytes }]);
    expect(await keptProcedure(store, digestOf(bytes))).toMatchObject({ ok: false, error: { rule: 'text-missing' } });
  },
);

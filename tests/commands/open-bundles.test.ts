import { expect, test } from 'vitest';
import type { ProcedureId, TicketId } from '../../src/base/brand.ts';
import { decideFates } from '../../src/commands/open-bundles.ts';
import { smallProcedure, workroom } from '../app/workroom.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { called } from './demo-room.ts';

/** Released anew while a bundle was begun on the old text, after it had been asked which those are. */
async function lateBundle() {
  const room = await workroom(smallProcedure);
  const sewer = await room.program();
  for (const text of ['ines', 'b-1', '4'])
    for (const move of [{ move: 'type', text } as const, { move: 'enter' } as const]) {
      sewer.tell({ news: 'move', move });
      await sewer.settled();
    }
  await room.release(smallProcedure.replace('±1.5', '±1'));
  const deciding = { fates: new Map(), procedure: 'T-1' as ProcedureId, hand: 'V-01' as never, reason: 'new text' };
  const decide = async (said: 'finish' | 'hold' | undefined, revision?: string) => {
    let decided: unknown;
    await called(async (io) => {
      decided = await decideFates(
        room.ledger,
        { ...deciding, said, ...(revision === undefined ? {} : { revision }) },
        io,
      );
      return 0;
    }, tempFolder());
    return decided;
  };
  const bundle = () => room.ledger.bundles().find(({ ticket }) => ticket === ('B-1' as TicketId));
  return { decide, bundle };
}

test('a bundle that was begun meanwhile is decided of like the others', async () => {
  const { decide, bundle } = await lateBundle();
  expect(await decide('hold')).toEqual([{ ticket: 'B-1', fate: 'hold' }]);
  expect(bundle()?.holds.length).toBe(1);
});

test('a bundle on another revision than the one that is withdrawn is not asked about', async () => {
  const { decide, bundle } = await lateBundle();
  expect(await decide('hold', 'X')).toEqual([]);
  expect(bundle()?.holds.length).toBe(0);
  expect(await decide('hold', 'A')).toEqual([{ ticket: 'B-1', fate: 'hold' }]);
});

test('where nobody can be asked of it, it is named', async () => {
  const { decide, bundle } = await lateBundle();
  expect(await decide(undefined)).toEqual([
    { ticket: 'B-1', fate: null, refused: expect.stringContaining('B-1: begun on an older revision') },
  ]);
  expect(bundle()?.holds.length).toBe(0);
});

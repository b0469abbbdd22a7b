import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import { formatStamp } from '../../src/base/instant.ts';
import { playPlain } from '../../src/commands/plain.ts';
import { smallProcedure, workroom } from '../app/workroom.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { called } from './demo-room.ts';

/** Vera types in what Ines did on paper; the input ends at once. */
async function typedIn({ meanwhile }: { readonly meanwhile: 'nothing' | 'taken by another' }) {
  const room = await workroom(smallProcedure);
  const paper = { by: 'V-01' as HandId, doneAt: formatStamp(room.clock.now()) };
  const program = await room.program({ home: 'out', hand: 'OP-02' as HandId, paper });
  program.tell({ news: 'ticket', ticket: 'B-1' });
  await program.settled();
  if (meanwhile === 'taken by another') {
    const taken = await room.ledger.attempt('B-1' as never, { do: 'resume', hand: 'V-01' as HandId });
    expect(taken).toMatchObject({ ok: true });
  }
  return called((io) => playPlain(program, io, { atRefusal: 'stop' }), tempFolder());
}

test('a paper that is left at the end of the input is left well', async () =>
  expect(await typedIn({ meanwhile: 'nothing' })).toMatchObject({ code: 0 }));

test('one that can’t be left any more ends with 2', async () => {
  const { code, out } = await typedIn({ meanwhile: 'taken by another' });
  expect(code).toBe(2);
  expect(out).toContain('You do not have B-1 in hand');
});

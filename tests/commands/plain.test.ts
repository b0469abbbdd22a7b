import { finished } from 'node:stream/promises';
import { setImmediate } from 'node:timers/promises';
import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import { formatStamp } from '../../src/base/instant.ts';
import { playPlain } from '../../src/commands/plain.ts';
import { smallProcedure, workroom } from '../app/workroom.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { called, instant } from './demo-room.ts';

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

test('what is typed while a picture is being read, and the end behind it, are heard', async () => {
  const room = await workroom(smallProcedure);
  const program = await room.program({ home: 'out', hand: 'OP-02' as HandId });
  program.tell({ news: 'ticket', ticket: 'B-1' });
  await program.settled();
  const input = '4\nmatch\n';
  const { code, out } = await called(
    (io) => {
      const ready = async () => {
        await finished(io.stdin);
        await setImmediate();
      };
      return playPlain(program, io, { ready });
    },
    tempFolder(),
    instant('2026-11-25T09:00:00+01:00'),
    input,
  );
  expect(code).toBe(0);
  expect(out).toContain('✓ 4 pcs');
  expect(out).toContain('✓ match');
});

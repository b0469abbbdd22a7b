import { expect, test } from 'vitest';
import type { App } from '../../src/app/app.ts';
import { modeOf } from '../../src/app/mode.ts';
import type { AppStore } from '../../src/app/store.ts';
import { press } from '../screens/lining.ts';
import { smallProcedure, type Workroom, workroom } from './workroom.ts';

/** Ines at the first reading of set 1, with half a value typed, and nobody there for ten minutes. */
async function lockedAt(of: Partial<App> = {}, keys = '"31"'): Promise<{ room: Workroom; program: AppStore }> {
  const room = await workroom(smallProcedure, { pin: 'supervisors' });
  const program = await room.program({ lockAfter: 10, ...of });
  await press(program, `"ines" enter "b-1" enter "4" enter 1 enter enter enter ${keys}`);
  await idle(room, program, 600);
  return { room, program };
}
async function idle(room: Workroom, program: AppStore, seconds: number): Promise<void> {
  room.clock.pass(seconds);
  program.tell({ news: 'second' });
  await program.settled();
}
const last = async ({ store }: Workroom, many = 1) =>
  (await store.read({})).slice(-many).map(({ entry: { hand, kind, body } }) => ({ hand, kind, body }));

test('after idle minutes the station locks; a second before it does not, and a key puts it off', async () => {
  const room = await workroom(smallProcedure);
  const program = await room.program({ lockAfter: 10 });
  await press(program, '"ines" enter "b-1" enter');
  await idle(room, program, 599);
  expect(program.app().lock).toBeNull();
  await press(program, '4');
  await idle(room, program, 599);
  expect(program.app().lock).toBeNull();
  await idle(room, program, 1);
  expect(modeOf(program.app())).toBe('locked');
});

test('nobody signed on, nothing to lock; and never where the room says off', async () => {
  const room = await workroom(smallProcedure);
  const nobody = await room.program({ lockAfter: 10 });
  await idle(room, nobody, 6000);
  expect(nobody.app().lock).toBeNull();
  const never = await room.program();
  await press(never, '"ines" enter');
  await idle(room, never, 60_000);
  expect(never.app().lock).toBeNull();
});

test('the hand is back: what was half typed, and the form half filled, stand as they stood', async () => {
  const { room, program } = await lockedAt();
  await press(program, '"ines" enter');
  expect(program.app()).toMatchObject({ lock: null, hand: 'OP-02', field: '31' });
  expect(await last(room)).toEqual([{ hand: 'OP-02', kind: 'signed-on', body: { role: 'sewer', after: 'lock' } }]);
  await press(program, '2 enter');
  expect(await last(room)).toMatchObject([{ kind: 'checked', body: { value: '312' } }]);

  const form = await lockedAt({}, 'h "torn at"');
  await press(form.program, '"ines" enter');
  expect(form.program.app()).toMatchObject({ field: 'torn at', layer: { layer: 'form' } });
});

test('a key after idle time locks first and does nothing else, when no second told it before', async () => {
  const room = await workroom(smallProcedure);
  const program = await room.program({ lockAfter: 10 });
  await press(program, '"ines" enter "b-1" enter "4"');
  room.clock.pass(600);
  await press(program, 'enter');
  expect(program.app()).toMatchObject({ field: '4', lock: { field: '' } });
  expect(await last(room)).toMatchObject([{ kind: 'opened' }]);
});

test('another hand signs on instead: the bundle is left properly, and can be taken up', async () => {
  const { room, program } = await lockedAt();
  await press(program, '"tomas" enter');
  expect(program.app()).toMatchObject({ lock: null, hand: 'OP-03', play: null, field: '' });
  expect(program.app().message?.text).toBe('Tomas is signed on. B-1 is left by Ines, and can be taken up again.');
  expect(await last(room, 2)).toMatchObject([
    { hand: 'OP-03', kind: 'signed-on', body: { role: 'sewer' } },
    { hand: 'OP-02', kind: 'paused', body: { reason: 'the station had locked itself, and Tomas signed on' } },
  ]);
  await press(program, '"b-1" enter');
  expect(program.app().play).toMatchObject({ bundle: { hand: 'OP-03', work: 'open' } });
});

test('where one ticket is played, the other hand goes on with it', async () => {
  const { program } = await lockedAt({ home: 'out' });
  await press(program, '"tomas" enter');
  expect(program.app()).toMatchObject({ hand: 'OP-03', ended: null, play: { bundle: { hand: 'OP-03' } } });
});

test('who has a PIN is asked for it at a locked station, and a wrong one leaves it locked', async () => {
  const { room, program } = await lockedAt();
  const pin = { salt: 'ab'.repeat(16), hash: 'cd'.repeat(32), n: 2, r: 1, p: 1 };
  await room.ledger.attempt(null, { do: 'set pin', hand: 'OP-02' as never, who: 'OP-02' as never, ...pin });
  await press(program, '"ines" enter');
  expect(modeOf(program.app())).toBe('pin');
  await press(program, '"8316" enter');
  expect(program.app().message?.text).toContain('not the PIN of Ines');
  await press(program, 'esc');
  expect(program.app()).toMatchObject({ lock: { field: 'ines' }, field: '31' });
});

test('a retired hand, a stranger or nobody does not unlock; a scanned badge does', async () => {
  const { room, program } = await lockedAt();
  await press(program, 'enter');
  expect(program.app().message?.text).toBe('Type a name, or scan a badge.');
  await room.ledger.attempt(null, { do: 'set pin', hand: 'V-01' as never, who: 'V-01' as never, ...flat });
  await press(program, '"zoe" enter');
  expect(program.app().message?.text).toContain('Nobody here is called zoe');
  program.tell({ news: 'move', move: { move: 'scan', text: '4711' } });
  await program.settled();
  expect(program.app()).toMatchObject({ lock: null, field: '31' });
});

const flat = { salt: 'ab'.repeat(16), hash: 'cd'.repeat(32), n: 2, r: 1, p: 1 };

test('whoever closes the program at a lock leaves the bundle, and the entry says how', async () => {
  const { room, program } = await lockedAt();
  program.tell({ news: 'move', move: { move: 'order', order: 'quit' } });
  await program.settled();
  expect(program.app().ended).toBe(0);
  expect(await last(room)).toMatchObject([{ kind: 'paused', body: { reason: 'the station had locked itself' } }]);
});

test('a timed point goes on under the lock', async () => {
  const timed = smallProcedure.replace('- [ ] Pieces ____ pcs (4)', '- [ ] Flash-off ____ min (min 12)');
  const room = await workroom(timed);
  const program = await room.program({ lockAfter: 10 });
  await press(program, '"ines" enter "b-1" enter enter');
  await idle(room, program, 720);
  expect(modeOf(program.app())).toBe('locked');
  await press(program, '"ines" enter enter');
  expect(await last(room)).toMatchObject([{ kind: 'checked', body: { value: '12', verdict: 'within' } }]);
});

import { expect, test } from 'vitest';
import { modeOf } from '../../src/app/mode.ts';
import type { AppStore } from '../../src/app/store.ts';
import type { PinRule } from '../../src/bundle/signature.ts';
import { press } from '../screens/lining.ts';
import { smallProcedure, type Workroom, workroom } from './workroom.ts';

/** Ines holds B-1 at its first reading, and Vera settles it, up to the question for the PIN. */
async function asked(rule: PinRule = 'supervisors'): Promise<{ readonly room: Workroom; readonly program: AppStore }> {
  const room = await workroom(smallProcedure, { pin: rule });
  const program = await room.program();
  await press(
    program,
    '"ines" enter "b-1" enter h "one short" enter s "vera" enter 1 enter enter enter "count again" enter',
  );
  return { room, program };
}
const message = (program: AppStore): string => program.app().message?.text ?? '';
const kinds = async ({ store }: Workroom, last: number): Promise<readonly string[]> =>
  (await store.read({})).slice(-last).map(({ entry }) => entry.kind);

test('a supervisor without a PIN chooses one at first need, typed twice, and it signs', async () => {
  const { room, program } = await asked();
  expect(program.app().pin?.stage.is).toBe('new');
  await press(program, '"73" enter');
  expect(message(program)).toContain('4 to 12 digits');
  await press(program, '"7305" enter "7350" enter');
  expect(message(program)).toBe('The two were not the same: choose it anew.');
  await press(program, '"7305" enter "7305" enter');
  expect(program.app()).toMatchObject({ pin: null, play: { next: { want: 'point' } } });
  expect(await kinds(room, 2)).toEqual(['pin-set', 'settled']);
  expect((await room.store.read({})).at(-1)?.entry.body).toMatchObject({ signed: true });
});

test('escape lets the signature be, with the answers before it kept', async () => {
  const { room, program } = await asked();
  await press(program, '"73" esc');
  expect(program.app().pin).toBeNull();
  expect(program.app().layer).toMatchObject({ layer: 'form', form: { answers: { how: 'rework' } } });
  expect(await kinds(room, 1)).toEqual(['held']);
});

test('a wrong PIN is recorded, and the third makes everybody wait, whatever is started anew', async () => {
  const { room, program } = await asked();
  await press(program, '"7305" enter "7305" enter h "again" enter s "vera" enter 1 enter enter enter "why" enter');
  expect(program.app().pin?.stage.is).toBe('known');
  await press(program, '"7304" enter "7306" enter');
  expect(message(program)).toBe('That is not the PIN of Vera: type it again.');
  await press(program, '"7307" enter');
  expect(message(program)).toBe('That is not the PIN of Vera: wait 30 s, then try again.');
  expect(await kinds(room, 3)).toEqual(['pin-failed', 'pin-failed', 'pin-failed']);
  await press(program, '"7305" enter');
  expect(message(program)).toMatch(/wrong 3 times: wait 30 s/);

  const other = await room.program();
  await press(other, '"vera" enter "b-1" enter s "vera" enter 1 enter enter enter "why" enter');
  expect(message(other)).toMatch(/wrong 3 times: wait 30 s/);
  expect(other.app().pin).toBeNull();

  room.clock.pass(30);
  await press(program, '"7305" enter');
  expect(await kinds(room, 2)).toEqual(['pin-proven', 'settled']);
});

test('the PIN is nowhere but in the question it answers, and gone with it', async () => {
  const { room, program } = await asked();
  await press(
    program,
    '"7305" enter "7305" enter h "again" enter s "vera" enter 1 enter enter enter "why" enter "7777" enter',
  );
  expect(JSON.stringify({ ...program.app(), room: null })).not.toMatch(/7305|7777/);
  const ledger = JSON.stringify((await room.store.read({})).map(({ entry }) => entry.body));
  expect(ledger).not.toMatch(/"(?:7305|7777)"/);
});

test('a hold point takes the PIN of whoever looks, a strike of another hand’s entry that of the supervisor', async () => {
  const room = await workroom(smallProcedure, { pin: 'supervisors' });
  const program = await room.program();
  const toHoldPoint = '"ines" enter "b-1" enter "4" enter 1 enter enter enter "312" enter "312" enter';
  await press(program, `${toHoldPoint} "vera" enter "7305" enter "7305" enter`);
  expect((await room.store.read({})).at(-1)?.entry.body).toMatchObject({ witness: 'V-01', signed: true });
  const other = await room.program();
  await press(other, '"vera" enter "b-1" enter b x "not seen" enter');
  expect(other.app().pin?.to.signature.meaning).toBe('struck');
  await press(other, '"7305" enter');
  expect(await kinds(room, 1)).toEqual(['struck']);
});

test('where everybody has a PIN, signing on asks for it; a scanned badge is none', async () => {
  const room = await workroom(smallProcedure, { pin: 'everyone' });
  const program = await room.program();
  await press(program, '"ines" enter "8316" enter "8316" enter');
  expect(program.app()).toMatchObject({ hand: 'OP-02', pin: null });
  const again = await room.program();
  again.tell({ news: 'move', move: { move: 'scan', text: '4711' } });
  await again.settled();
  expect(modeOf(again.app())).toBe('pin');
  again.tell({ news: 'move', move: { move: 'scan', text: '8316' } });
  await again.settled();
  expect(again.app()).toMatchObject({ hand: null, pin: { typed: '' } });
  await press(again, '"8316" enter');
  expect(again.app()).toMatchObject({ hand: 'OP-02', message: { text: 'Ines is signed on.' } });
});

test('a right PIN that wrong ones elsewhere overtake waits with them', async () => {
  const { room, program } = await asked();
  await press(
    program,
    '"7305" enter "7305" enter h "again" enter s "vera" enter 1 enter enter enter "why" enter "7305"',
  );
  program.tell({ news: 'move', move: { move: 'enter' } });
  // Recorded while the first PIN is still being worked out.
  for (let tries = 0; tries < 3; tries++)
    await room.ledger.attempt(null, { do: 'fail pin', hand: 'OP-03' as never, who: 'V-01' as never, for: 'settled' });
  await program.settled();
  expect(message(program)).toMatch(/wrong 3 times: wait 30 s/);
  expect(await kinds(room, 1)).toEqual(['pin-failed']);
});

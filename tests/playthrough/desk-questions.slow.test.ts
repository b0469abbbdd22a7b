import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { startTerminal } from '../screens/real-terminal.ts';
import { practiceRoom, program, quietEnv, verasPin, walkfoot } from './lining.ts';

let room: ReturnType<typeof practiceRoom>;
beforeEach(() => {
  room = practiceRoom();
  const file = join(room.folder, 'procedures/LIN-2207.md');
  for (const each of [file, file.replace('.md', '.es.md')])
    writeFileSync(each, readFileSync(each, 'utf8').replace('(312 ±1.5 of', '(312 ±1 of'));
});
afterEach(() => room.remove());

/** A desk before the question what becomes of the bundle that is at work on the older revision. */
async function atTheQuestion() {
  const desk = startTerminal({
    command: process.execPath,
    args: [program, 'desk', '--hand', 'Vera', '--room', room.folder],
  });
  await desk.waitFor('rev C, changed since');
  await desk.press(...Array.from({ length: 9 }, () => '\x1b[B'), 'n');
  await desk.waitFor(/Finish it on that, or hold it\?\nfinish, hold or never mind:/);
  return desk;
}
type Desk = Awaited<ReturnType<typeof atTheQuestion>>;

async function backAtTheDesk(desk: Desk, state: string): Promise<void> {
  await desk.waitFor(state);
  expect(desk.altScreen()).toBe(true);
  await desk.press('\x1b[A', '\x1b[B', 'v');
  await desk.waitFor('Count the kit');
  await desk.press('\x03');
  expect((await desk.exited).code).toBe(0);
}

test.each([
  ['Ctrl-D', ['\x04']],
  ['Ctrl-C', ['\x03']],
  ['never mind', [...'never mind', '\r']],
])(
  '%s at a question of a release does nothing, says so on a line of its own, and leads back to the desk',
  async (_, keys) => {
    const desk = await atTheQuestion();
    await desk.press(...keys);
    await desk.waitFor('Press enter to go back');
    expect(desk.screen().some((row) => row.startsWith('walkfoot: Nothing was done: say of each of B-1041'))).toBe(true);
    await desk.press('\r');
    await backAtTheDesk(desk, 'rev C, changed since');
  },
);

test.each([
  ['Ctrl-D', '\x04'],
  ['Ctrl-C', '\x03'],
])('%s where enter is waited for leads back to the desk, too', async (_, key) => {
  const desk = await atTheQuestion();
  await desk.press(...'fin', '\r');
  await desk.waitFor('PIN of Vera:');
  await desk.press(key);
  await desk.waitFor('Press enter to go back');
  await desk.press(key);
  await backAtTheDesk(desk, 'rev C, changed since');
});

test('a wrong PIN is asked for again, and what was answered before it stands', async () => {
  const desk = await atTheQuestion();
  await desk.press(...'what', '\r');
  await desk.waitFor('Type finish or hold');
  await desk.press(...'finisg', '\x7f', 'h', '\r');
  await desk.waitFor('PIN of Vera:');
  await desk.press(...'1111', '\r');
  await desk.waitFor(/That is not the PIN of Vera: type it again\.\nPIN of Vera:/);
  await desk.press('\r', ...verasPin, '\r');
  await desk.waitFor('Press enter to go back');
  expect(desk.text()).toContain('LIN-2207 revision D is released by Vera');
  expect(desk.text()).not.toMatch(new RegExp(`1111|${verasPin}`));
  await desk.press('\r');
  await backAtTheDesk(desk, 'rev D');
  expect(walkfoot('verify', '--room', room.folder)).toContain('is intact');
});

test('a rehearsal speaks the language of whoever is at the desk', async () => {
  execFileSync(process.execPath, [program, 'hand', 'language', 'Vera', 'es', '--hand', 'Vera', '--room', room.folder], {
    env: quietEnv(),
    input: `${verasPin}\n`,
  });
  const desk = startTerminal({
    command: process.execPath,
    args: [program, 'desk', '--hand', 'Vera', '--room', room.folder],
  });
  await desk.waitFor('Vera ha entrado');
  await desk.press(...Array.from({ length: 9 }, () => '\x1b[B'), 'r');
  await desk.waitFor('ENSAYO · no se anota nada');
  await desk.press('\x03');
  await desk.waitFor('El ensayo');
  await desk.press('\x03');
  expect((await desk.exited).code).toBe(0);
});

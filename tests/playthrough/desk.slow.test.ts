import { chmodSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startTerminal } from '../screens/real-terminal.ts';
import { practiceRoom, program, verasPin, walkfoot } from './lining.ts';

let room: ReturnType<typeof practiceRoom>;
beforeAll(() => {
  room = practiceRoom();
});
afterAll(() => room.remove());

/** An editor that does this, in shell, to the file that it is given. */
function editor(does: string): string {
  const path = join(room.folder, 'editor.sh');
  writeFileSync(path, `#!/bin/sh\n${does}\n`);
  chmodSync(path, 0o755);
  return path;
}

const deskWith = (EDITOR: string | undefined) =>
  startTerminal({
    command: process.execPath,
    args: [program, 'desk', '--hand', 'Vera', '--room', room.folder],
    env: { EDITOR, VISUAL: undefined },
  });

/** Down to the last row, which is the lining's draft. */
const toTheDraft = Array.from({ length: 9 }, () => '\x1b[B');

test('a draft is edited, compared and released from the desk, which takes the terminal back each time', async () => {
  const desk = deskWith(
    editor(`echo "the editor has the terminal"; read line; sed -i 's/(312 ±1.5 of/(312 ±1 of/' "$1" "\${1%.md}.es.md"`),
  );
  await desk.waitFor('On hold, waiting');
  await desk.press(...toTheDraft, 'e');
  await desk.waitFor('the editor has the terminal');
  expect(desk.altScreen()).toBe(false);
  expect(desk.cursorVisible()).toBe(true);
  await desk.press('o', 'k', '\r');
  await desk.waitFor('rev C, changed since');
  expect(desk.altScreen()).toBe(true);
  await desk.press('c');
  await desk.waitFor('311 to 313 mm');
  await desk.press('r');
  await desk.waitFor('REHEARSAL');
  await desk.press('l');
  await desk.waitFor('311 to 313 mm');
  await desk.press('n');
  await desk.waitFor('Finish it on that, or hold it?');
  await desk.press(...'finish', '\r');
  await desk.waitFor('PIN of Vera:');
  await desk.press(...verasPin, '\r');
  await desk.waitFor('Press enter to go back');
  expect(desk.text()).toContain('LIN-2207 revision D is released by Vera');
  await desk.press('\r');
  await desk.waitFor('procedures/LIN-2207.md · rev D');
  await desk.press('\x03');
  expect((await desk.exited).code).toBe(0);
  expect(desk.altScreen()).toBe(false);
  expect(walkfoot('verify', '--room', room.folder)).toContain('is intact');
});

test.each([
  ['crashes', 'kill -SEGV $$', 'The editor ended with SIGSEGV'],
  ['ends badly', 'exit 3', 'The editor ended with 3'],
  ['leaves the terminal raw', 'stty raw -echo', 'On hold, waiting'],
])('an editor that %s costs nothing: the desk comes back', async (_, does, said) => {
  const desk = deskWith(editor(`echo "the editor is here"; sleep 0.5; ${does}`));
  await desk.waitFor('On hold, waiting');
  await desk.press(...toTheDraft);
  await desk.waitFor('› LIN-2207');
  // How long a hold waits goes on meanwhile.
  const head = (): readonly string[] =>
    desk
      .screen()
      .slice(0, 5)
      .map((row) => row.replace(/waits .*/, ''));
  const before = head();
  await desk.press('e');
  await desk.waitFor('the editor is here');
  await desk.waitFor(said);
  await desk.waitFor('› LIN-2207');
  expect(head()).toEqual(before);
  await desk.press('\r', 'v');
  await desk.waitFor('Count the kit');
  await desk.press('\x03');
  expect((await desk.exited).code).toBe(0);
  expect(desk.cursorVisible()).toBe(true);
});

test.each([
  [undefined, 'No editor is named'],
  ['/no/such/editor -w', 'could not be started'],
])('no editor (%s) is a sentence with the way out', async (named, said) => {
  const desk = deskWith(named);
  await desk.waitFor('On hold, waiting');
  await desk.press(...toTheDraft, 'e');
  await desk.waitFor(said);
  await desk.press('\x03');
  expect((await desk.exited).code).toBe(0);
});

test('what is saved in another window is on the desk at once', async () => {
  const desk = deskWith(undefined);
  await desk.waitFor('On hold, waiting');
  const file = join(room.folder, 'procedures/LIN-2207.md');
  const text = readFileSync(file, 'utf8');
  await desk.press(...toTheDraft, '\r');
  await desk.waitFor('procedures/LIN-2207.md');
  writeFileSync(file, text.replace('pcs (22)', 'pcs (22'));
  await desk.waitFor('A bracket is missing here', 5000);
  await desk.waitFor('can’t be compared yet');
  writeFileSync(file, text);
  await desk.waitFor((screen) => !screen.join('\n').includes('A bracket is missing'), 5000);
  await desk.press('\x03');
  expect((await desk.exited).code).toBe(0);
});

test('a folder of procedures that is taken away and put back is on the desk as it then stands', async () => {
  const desk = deskWith(undefined);
  await desk.waitFor('On hold, waiting');
  await desk.press(...toTheDraft);
  await desk.waitFor('› LIN-2207');
  const folder = join(room.folder, 'procedures');
  renameSync(folder, `${folder}-away`);
  await desk.waitFor('can no longer be watched');
  expect(desk.text()).not.toContain('CUS-0412  Box');
  await desk.press('\x1b[A');
  const file = join(`${folder}-away`, 'CUS-0412.md');
  const text = readFileSync(file, 'utf8');
  writeFileSync(file, text.replace('pcs (68)', 'pcs (67)'));
  renameSync(`${folder}-away`, folder);
  await desk.waitFor(/CUS-0412 .*rev B, changed since/);
  await desk.press('\x1b[A');
  writeFileSync(join(folder, 'CUS-0412.md'), text);
  await desk.waitFor(/CUS-0412 .*rev B\n/);
  await desk.press('\x03');
  expect((await desk.exited).code).toBe(0);
});

test('a rehearsal follows every save, at the step where it stood, and a save with errors leaves the last good text', async () => {
  const file = join(room.folder, 'procedures/CUS-0412.md');
  const text = readFileSync(file, 'utf8');
  const rehearsal = startTerminal({
    command: process.execPath,
    args: [program, 'rehearse', file, '--watch'],
    columns: 60,
    rows: 20,
  });
  await rehearsal.waitFor('Pieces in the bundle');
  await rehearsal.press('6', '8', '\r');
  await rehearsal.waitFor('Roll of the cover');
  writeFileSync(file, text.replace('Roll of the cover cloth', 'Roll of the cloth for the cover'));
  await rehearsal.waitFor('Roll of the cloth for the cover', 5000);
  expect(rehearsal.text()).toContain('68 pcs');
  expect(rehearsal.text()).toContain('REHEARSAL');
  writeFileSync(file, text.replace('pcs (68)', 'pcs (68'));
  await rehearsal.waitFor('the text before it stays', 5000);
  expect(rehearsal.text()).toContain('Roll of the cloth for the cover');
  writeFileSync(file, text);
  await rehearsal.waitFor('Roll of the cover cloth', 5000);
  await rehearsal.press('\x03');
  expect((await rehearsal.exited).code).toBe(0);
  expect(walkfoot('verify', '--room', room.folder)).toContain('is intact');
});

test('a rehearsal follows its drawing as well', async () => {
  const drawing = join(room.folder, 'media/cushion.svg');
  const svg = readFileSync(drawing, 'utf8');
  const rehearsal = startTerminal({
    command: process.execPath,
    args: [program, 'rehearse', 'CUS-0412', '--watch', '--room', room.folder],
    columns: 110,
    rows: 30,
  });
  await rehearsal.waitFor(/Pieces in the bundle[\s\S]*[⠁-⣿]/);
  writeFileSync(drawing, 'torn');
  await rehearsal.waitFor((screen) => !/[⠁-⣿]/.test(screen.join('')), 5000);
  expect(rehearsal.text()).toContain('Pieces in the bundle');
  writeFileSync(drawing, svg);
  await rehearsal.waitFor(/[⠁-⣿]/, 5000);
  await rehearsal.press('\x03');
  expect((await rehearsal.exited).code).toBe(0);
});

test('a hold is settled at the desk with a reason and a PIN; a wrong one is told and recorded', async () => {
  const desk = deskWith(undefined);
  await desk.waitFor('H-030');
  await desk.press('\r');
  await desk.waitFor('Vera / Henk may settle it');
  await desk.press('s');
  for (const asked of ['How?', 'Which set?', 'Back to which step?']) {
    await desk.waitFor(`› ${asked}`);
    await desk.press('\r');
  }
  await desk.waitFor('› Why so?');
  await desk.press(...'recounted', '\r');
  await desk.waitFor('Vera signs: settled H-030, rework.');
  await desk.press(...'1111', '\r');
  await desk.waitFor('That is not the PIN of Vera');
  await desk.press(...verasPin, '\r');
  await desk.waitFor('H-030 of B-1043 is settled.');
  await desk.press('\x03');
  expect((await desk.exited).code).toBe(0);
  const rows = walkfoot('who', 'B-1043', '--json', '--room', room.folder);
  expect(JSON.parse(rows)).toContainEqual(
    expect.objectContaining({ kind: 'settled', name: 'Vera', meaning: 'settled with PIN' }),
  );
  expect(walkfoot('verify', '--room', room.folder)).toContain('is intact');
});

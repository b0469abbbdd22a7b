import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type RealTerminal, startTerminal } from '../screens/real-terminal.ts';
import { practiceRoom, program, quietEnv, who } from './lining.ts';

/** Ines at the first point of B-1047, in a terminal that goes on with a shell when the program has ended. */
async function withLining(act: (terminal: RealTerminal, folder: string) => Promise<void>): Promise<void> {
  const room = practiceRoom();
  try {
    const terminal = startTerminal({
      command: process.execPath,
      args: [program, 'sew', 'B-1047', '--hand', 'Ines', '--room', room.folder],
    });
    await terminal.waitFor('Pieces in the bundle');
    expect(terminal.altScreen()).toBe(true);
    await act(terminal, room.folder);
  } finally {
    room.remove();
  }
}

const kinds = (folder: string): readonly string[] => who(folder, 'B-1047').map(({ kind }) => kind);

test.each([
  ['SIGTERM', 143],
  ['SIGHUP', 129],
  ['SIGINT', 130],
] as const)('%s in the middle of a bundle: it is left, and the terminal given back', async (signal, code) => {
  await withLining(async (terminal, folder) => {
    await terminal.press('2', '2');
    terminal.kill(signal);
    expect((await terminal.exited).code).toBe(code);
    expect(terminal.altScreen()).toBe(false);
    expect(terminal.cursorVisible()).toBe(true);
    expect(kinds(folder)).toEqual(['ticketed', 'opened', 'paused']);
  });
});

test('the window closed in the middle of a reading: nothing recorded is lost, and the bundle can be taken up', async () => {
  await withLining(async (terminal, folder) => {
    await terminal.press('2', '2', '\r');
    await terminal.waitFor(/› Left and right/);
    terminal.hangUp();
    expect((await terminal.exited).code).toBe(129);
    expect(kinds(folder)).toEqual(['ticketed', 'opened', 'checked', 'paused']);
    const again = spawnSync(process.execPath, [program, 'sew', 'B-1047', '--hand', 'Ines', '--room', folder], {
      env: quietEnv(),
      input: '',
      encoding: 'utf8',
    });
    expect(again).toMatchObject({ status: 0, stdout: expect.stringContaining('Left and right corner patches') });
  });
});

test('the ledger taken away under the program: nothing is ticked, one sentence, exit 2', async () => {
  await withLining(async (terminal, folder) => {
    spawnSync('mv', [join(folder, '.walkfoot/ledger.db'), join(folder, 'elsewhere.db')]);
    await terminal.press('2', '2', '\r');
    expect((await terminal.exited).code).toBe(2);
    expect(terminal.altScreen()).toBe(false);
    expect(terminal.text().replaceAll('\n', '')).toMatch(
      /^walkfoot: The ledger .* was moved or replaced .* nothing was recorded: put it back, then start walkfoot again\.$/,
    );
  });
});

test('too small a terminal says so, and goes on when it is enlarged', async () => {
  await withLining(async (terminal) => {
    terminal.resize(30, 8);
    await terminal.waitFor(/40 .*12/);
    await terminal.press('2', '2', '\r');
    terminal.resize(80, 24);
    await terminal.waitFor('Pieces in the bundle');
    await terminal.press('2', '2', '\r');
    await terminal.waitFor(/› Left and right/);
    terminal.type('\x03');
    expect((await terminal.exited).code).toBe(0);
  });
});

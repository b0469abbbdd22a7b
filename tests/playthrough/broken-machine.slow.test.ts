import { spawnSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, test } from 'vitest';
import { makeReadOnly, makeWritable, mounted } from '../faults/mounted.ts';
import { type RealTerminal, startTerminal } from '../screens/real-terminal.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { program, quietEnv, walkfoot, who } from './lining.ts';

/** Ines at the first point of B-1047 in a new room, on a real terminal. */
async function atTheFirstPoint(place: string): Promise<{ readonly room: string; readonly terminal: RealTerminal }> {
  const room = join(place, 'room');
  walkfoot('demo', room);
  return { room, terminal: await sewing(room, 'Pieces in the bundle') };
}

async function sewing(room: string, asked: string): Promise<RealTerminal> {
  const args = [program, 'sew', 'B-1047', '--hand', 'Ines', '--room', room];
  const terminal = startTerminal({ command: process.execPath, args });
  await terminal.waitFor(`› ${asked}`);
  return terminal;
}

/** Answers the first point, which the machine will not keep. */
async function answerInVain(terminal: RealTerminal, sentence: RegExp): Promise<void> {
  await terminal.press('2', '2', '\r');
  expect((await terminal.exited).code).toBe(2);
  expect(terminal.altScreen()).toBe(false);
  expect(terminal.text().replaceAll('\n', '')).toMatch(sentence);
}

/** What was recorded is there, the answer is not, and work goes on from where the screen had stood. */
async function expectGoesOn(room: string): Promise<void> {
  const kinds = (): readonly string[] => who(room, 'B-1047').map(({ kind }) => kind);
  expect(kinds()).toEqual(['ticketed', 'opened']);
  const terminal = await sewing(room, 'Pieces in the bundle');
  await terminal.press('2', '2', '\r');
  await terminal.waitFor('› Left and right');
  terminal.type('\x03');
  expect((await terminal.exited).code).toBe(0);
  expect(kinds().filter((kind) => kind === 'checked')).toHaveLength(1);
  expect(walkfoot('verify', '--room', room)).toContain('is intact');
}

/** Another program that has the ledger to itself until it is told to let go. */
function lock(room: string): () => void {
  const other = new DatabaseSync(join(room, '.walkfoot', 'ledger.db'));
  other.exec('BEGIN IMMEDIATE');
  return () => other.close();
}

test('another program has the ledger for a while: nothing is ticked, the screen lives, and then it is ticked', async () => {
  const { room, terminal } = await atTheFirstPoint(tempFolder());
  const letGo = lock(room);
  await terminal.press('2', '2', '\r');
  terminal.resize(30, 8);
  await terminal.waitFor(/40 .*12/);
  terminal.resize(80, 24);
  await terminal.waitFor('› Pieces in the bundle');
  letGo();
  await terminal.waitFor('› Left and right');
  terminal.type('\x03');
  expect((await terminal.exited).code).toBe(0);
});

test('another program does not let go of the ledger: one sentence, exit 2, nothing ticked, and work goes on when it has', async () => {
  const { room, terminal } = await atTheFirstPoint(tempFolder());
  const letGo = lock(room);
  await answerInVain(
    terminal,
    /^walkfoot: .* is in use by another program that does not let go: close that program, .*\.$/,
  );
  letGo();
  await expectGoesOn(room);
});

test('the disk is full in the middle of a bundle: one sentence, exit 2, nothing ticked, and work goes on when there is space', async (context) => {
  const disk = mounted(context, 'size=3m');
  const { room, terminal } = await atTheFirstPoint(disk);
  const ballast = join(disk, 'ballast');
  expect(() => writeFileSync(ballast, Buffer.alloc(4_000_000))).toThrow('ENOSPC');
  await answerInVain(
    terminal,
    /^walkfoot: (There is no room left on the disk|The disk does not take what is written) .*\.$/,
  );
  rmSync(ballast);
  await expectGoesOn(room);
});

test('the room lies on a disk that is set to read-only: one sentence, exit 2, and work goes on when it is writable', async (context) => {
  const disk = mounted(context, 'size=3m');
  const { room, terminal } = await atTheFirstPoint(disk);
  terminal.kill('SIGKILL');
  await terminal.exited;
  makeReadOnly(disk);
  for (const command of [
    ['sew', 'B-1047', '--hand', 'Ines'],
    ['ticket', 'LIN-2207'],
  ]) {
    const args = [program, ...command, '--room', room];
    const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8', env: quietEnv() });
    expect(status).toBe(2);
    expect(stderr).toMatch(/^walkfoot: .* is on a disk that is set to read-only: .*\.\n$/);
  }
  makeWritable(disk);
  await expectGoesOn(room);
});

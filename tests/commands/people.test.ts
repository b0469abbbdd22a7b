import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Clock } from '../../src/base/instant.ts';
import { openStation, sew } from '../../src/commands/sew.ts';
import { practiceRoom } from '../playthrough/lining.ts';
import { called, instant } from './demo-room.ts';

let room: ReturnType<typeof practiceRoom>;
beforeAll(() => {
  room = practiceRoom();
});
afterAll(() => room.remove());

/** What the dialogue prints when these lines come, each so many minutes after whatever the program did last. */
async function spoken(play: typeof openStation, lines: readonly string[], minutes: number): Promise<string> {
  let now = instant('2026-11-25T09:00:00+01:00');
  const clock: Clock = () => {
    now = { ...now, ms: now.ms + minutes * 60_000 };
    return now;
  };
  const stdin = new PassThrough();
  stdin.end(lines.map((line) => `${line}\n`).join(''));
  const { out } = await called(
    (io) =>
      play(
        { room: room.folder, hand: 'Ines', plain: true },
        {
          ...io,
          stdin: stdin as unknown as NodeJS.ReadStream,
          clock,
        },
      ),
    room.folder,
  );
  return out;
}

function settings(text: string): void {
  const file = join(room.folder, 'walkfoot.yaml');
  const [head] = readFileSync(file, 'utf8').split('settings:');
  writeFileSync(file, `${head}settings:\n${text}`);
}

test('a practice room’s station locks after half an hour, unless the room says otherwise', async () => {
  expect(await spoken(openStation, ['B-1041', 'Ines'], 31)).toContain('LOCKED. Ines is on, with no bundle in hand.');
  expect(await spoken(openStation, ['', ''], 1)).not.toContain('LOCKED');
  settings('  lock after: off\n');
  expect(await spoken(openStation, ['', ''], 600)).not.toContain('LOCKED');
  settings('  lock after: 1 min\n');
  expect(await spoken(openStation, ['', ''], 2)).toContain('LOCKED');
});

test('where everybody has a PIN, who is named on the command line is asked for it before anything else', async () => {
  settings('  pin: everyone\n');
  const play: typeof openStation = (options, io) => sew('B-1041', options, io);
  const first = await spoken(play, ['5183', '5183', 'leave'], 0);
  expect(first).toContain('Ines signs: signed on. Ines has no PIN yet and chooses one');
  expect(first).toContain('B-1041 is left');
  const again = await spoken(play, ['5184', '5183', 'leave'], 0);
  expect(again).toContain('That is not the PIN of Ines: type it again.');
  expect(again).toContain('B-1041: LIN-2207, rev C');
  expect(await spoken(play, ['never mind'], 0)).not.toContain('B-1041: LIN-2207');
});

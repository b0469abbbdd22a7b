import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterEach, expect, test } from 'vitest';
import { roomLedger } from '../../src/app/room-ledger.ts';
import { refuse } from '../../src/base/result.ts';
import type { Command } from '../../src/bundle/command.ts';
import { followPictures } from '../../src/commands/follow-pictures.ts';
import { keptPictures, picturesInFolder } from '../../src/commands/pictures-of.ts';
import { seePictures } from '../../src/commands/see-pictures.ts';
import { digestOf } from '../../src/ledger/leaf.ts';
import type { SeenPicture } from '../../src/picture/seen-picture.ts';
import { workroom } from '../app/workroom.ts';
import { press } from '../screens/lining.ts';

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

const svg =
  '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50"><line id="L" class="mark" x1="0" y1="10" x2="100" y2="10"/></svg>';
const photo = (): Promise<Uint8Array> =>
  sharp({ create: { width: 30, height: 20, channels: 3, background: '#aaa' } })
    .jpeg()
    .toBuffer();

const text = (...addresses: readonly string[]): string => `---
procedure: T-1
title: Small lining
sets: 1
---

# Small lining

## Look

${addresses.map((address) => `![Shown](../media/${address})`).join('\n\n')}

- [ ] It is looked at
`;

async function folderWith(files: Readonly<Record<string, string | Uint8Array>>): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'walkfoot-pictures-'));
  folders.push(folder);
  mkdirSync(join(folder, 'media'));
  mkdirSync(join(folder, 'procedures'));
  for (const [name, bytes] of Object.entries(files)) writeFileSync(join(folder, 'media', name), bytes);
  return folder;
}

const brief = (seen: SeenPicture | undefined): string =>
  seen === undefined ? 'none' : seen.is === 'unshown' ? seen.why.rule : seen.is;

test('pictures of a draft are those in its folder; what cannot be shown says why, and hinders no other', async () => {
  const folder = await folderWith({
    'line.svg': svg,
    'strap.JPG': await photo(),
    'torn.jpg': (await photo()).subarray(0, 60),
    'empty.svg': '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"/>',
    'not.svg': 'no drawing',
  });
  const names = ['torn.jpg', 'empty.svg', 'not.svg', 'gone.svg', 'line.svg#L', 'line.svg', 'strap.JPG'];
  const room = await workroom(text(...names));
  const playing = await room.ledger.playing('B-1' as never);
  if (!playing.ok) throw new Error(playing.error.message);
  const found = await seePictures(await picturesInFolder(folder, 'procedures/T-1.md')(playing.value));
  expect(Object.fromEntries([...found].map(([address, seen]) => [address, brief(seen)]))).toEqual({
    '../media/torn.jpg': 'picture-broken',
    '../media/empty.svg': 'drawing-unread',
    '../media/not.svg': 'drawing-unread',
    '../media/gone.svg': 'picture-missing',
    '../media/line.svg': 'drawing',
    '../media/strap.JPG': 'photograph',
  });
  expect(found.get('../media/line.svg')).toMatchObject({
    scale: 'to scale',
    digest: digestOf(new TextEncoder().encode(svg)),
  });
});

test('pictures of a bundle are those that were released, whatever became of the files', async () => {
  const room = await workroom(text('line.svg', 'gone.svg'));
  const bytes = new TextEncoder().encode(svg);
  await room.store.keep([{ digest: digestOf(bytes), name: 'media/line.svg', bytes }]);
  const release = room.ledger
    .room()
    .releases.get('T-1' as never)
    ?.at(-1);
  if (!release) throw new Error('no release');
  const pictures = [{ address: '../media/line.svg', digest: digestOf(bytes) }];
  const ledger = await roomLedger(room.store, room.clock.now, { pin: 'nobody' });
  const again = { do: 'release', hand: 'V-01', procedure: 'T-1', title: 'Small lining', author: 'OP-02' } as const;
  const rest = { supervisors: 'several', digest: release.digest, understood: release.understood, pictures } as const;
  const done = await ledger.attempt(null, { ...again, ...rest } as unknown as Command);
  if (!done.ok) throw new Error(done.error.message);
  const playing = await ledger.playing('B-1' as never);
  if (!playing.ok) throw new Error(playing.error.message);
  const found = await seePictures(await keptPictures(room.store, ledger)(playing.value));
  expect(brief(found.get('../media/line.svg'))).toBe('drawing');
  expect(brief(found.get('../media/gone.svg'))).toBe('picture-gone');
});

test('the pictures of each text are read once, beside the program, and one that breaks stops nobody', async () => {
  const room = await workroom(text('line.svg'));
  const program = await room.program();
  const asked: string[] = [];
  const following = followPictures(program, async ({ procedure }) => {
    asked.push(procedure.id);
    return new Map([['../media/line.svg', refuse('picture-gone', 'It is gone.')]]);
  });
  await press(program, '"ines" enter "b-1" enter');
  await following.seen();
  expect(program.app().pictures?.of).toBe(program.app().play?.procedure);
  expect(program.app().pictures?.found.size).toBe(1);
  await press(program, 'l "b-1" enter');
  await following.seen();
  expect(asked).toEqual(['T-1']);
  expect(program.app().pictures?.of).toBe(program.app().play?.procedure);
  following.stop();
  const breaks = followPictures(program, () => Promise.reject(new Error('torn')));
  await breaks.seen();
  expect(program.app().pictures?.found.size).toBe(0);
  breaks.stop();
});

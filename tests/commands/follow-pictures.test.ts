import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterEach, expect, test, vi } from 'vitest';
import { pictureLines } from '../../src/app/picture-lines.ts';
import type { AppStore } from '../../src/app/store.ts';
import { ok, type Result } from '../../src/base/result.ts';
import {
  type FindPicture,
  keptPictures,
  type PictureBytes,
  picturesInFolder,
} from '../../src/commands/find-picture.ts';
import { followPictures } from '../../src/commands/follow-pictures.ts';
import { digestOf } from '../../src/ledger/leaf.ts';
import { memoryLedger } from '../../src/ledger/memory-ledger.ts';
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

function pictureOf(text: string): PictureBytes {
  const bytes = new TextEncoder().encode(text);
  return { bytes, digest: digestOf(bytes) };
}
const line = pictureOf(svg);
const shown = { alt: 'Shown', address: '../media/line.svg', bringOut: [], line: 1 };
const gone = { ok: false, error: { rule: 'picture-gone' } };

/** A program that plays a text, all of whose pictures were read. */
async function followed(markdown: string, find: FindPicture): Promise<AppStore> {
  const room = await workroom(markdown);
  const program = await room.program();
  const following = followPictures(program, find);
  await press(program, '"ines" enter "b-1" enter');
  await following.seen();
  following.stop();
  return program;
}

/** What the program has of its pictures, by their addresses. */
const told = (program: AppStore): unknown =>
  Object.fromEntries(
    [...(program.app().pictures?.found ?? [])].map(([address, seen]) => [
      address,
      seen.is === 'unshown' ? seen.why.rule : seen.is,
    ]),
  );

test('pictures of a draft are those in its folder; what cannot be shown says why, and hinders no other', async () => {
  const folder = await folderWith({
    'line.svg': svg,
    'strap.JPG': await photo(),
    'torn.jpg': (await photo()).subarray(0, 60),
    'empty.svg': '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"/>',
    'not.svg': 'no drawing',
  });
  const names = ['torn.jpg', 'empty.svg', 'not.svg', 'gone.svg', 'line.svg#L', 'line.svg', 'strap.JPG'];
  const program = await followed(text(...names), picturesInFolder(folder, 'procedures/T-1.md'));
  expect(told(program)).toEqual({
    '../media/torn.jpg': 'picture-broken',
    '../media/empty.svg': 'drawing-unread',
    '../media/not.svg': 'drawing-unread',
    '../media/gone.svg': 'picture-missing',
    '../media/line.svg': 'drawing',
    '../media/strap.JPG': 'photograph',
  });
  expect(program.app().pictures?.found.get('../media/line.svg')).toMatchObject({
    scale: 'to scale',
    digest: line.digest,
  });
});

test('a picture of a bundle is the one its text was released with, whatever became of the file or was released since', async () => {
  const store = memoryLedger('SEW-1');
  const newer = pictureOf(svg.replace('class="mark"', 'class="seam"'));
  await store.keep([line, newer].map((kept) => ({ ...kept, name: 'media/line.svg' })));
  const find = keptPictures(store);
  expect(await find({ ...shown, digest: line.digest })).toMatchObject({ ok: true, value: { bytes: line.bytes } });
  expect(await find({ ...shown, digest: newer.digest })).toMatchObject({ ok: true, value: { bytes: newer.bytes } });
  expect(await find({ ...shown, digest: pictureOf('lost').digest })).toMatchObject(gone);
  expect(await find(shown)).toMatchObject(gone);
});

test('the pictures of each text are read once, beside the program', async () => {
  const room = await workroom(text('line.svg', 'line.svg#L'));
  const program = await room.program();
  const asked: string[] = [];
  const following = followPictures(program, async ({ address }) => {
    asked.push(address);
    return ok(line);
  });
  await press(program, '"ines" enter "b-1" enter');
  await following.seen();
  expect(program.app().pictures?.of).toBe(program.app().play?.procedure);
  await press(program, 'l "b-1" enter');
  await following.seen();
  expect(asked).toEqual(['../media/line.svg']);
  expect(program.app().pictures?.of).toBe(program.app().play?.procedure);
  following.stop();
});

test('those of the step at hand come first and do not wait for the others', async () => {
  const room = await workroom(`${text('one.svg')}\n## Look again\n\n![Shown](../media/two.svg)\n\n- [ ] It is seen\n`);
  const program = await room.program();
  await press(program, '"ines" enter "b-1" enter enter');
  expect(program.app().play?.next).toMatchObject({ at: { step: { number: 2 } } });
  const slow = Promise.withResolvers<Result<PictureBytes>>();
  const following = followPictures(program, async ({ address }) => (address.includes('one') ? slow.promise : ok(line)));
  await following.seen();
  expect(told(program)).toEqual({ '../media/two.svg': 'drawing' });
  slow.resolve(ok(line));
  await vi.waitFor(() =>
    expect(told(program)).toEqual({ '../media/two.svg': 'drawing', '../media/one.svg': 'drawing' }),
  );
  following.stop();
});

test('a picture that breaks stops nobody, says what broke it in its place, and hinders no other', async () => {
  const program = await followed(text('torn.svg', 'line.svg'), async ({ address }) => {
    if (address.includes('torn')) throw new Error('The disk is torn.');
    return ok(line);
  });
  expect(told(program)).toEqual({ '../media/torn.svg': 'picture-trouble', '../media/line.svg': 'drawing' });
  expect(pictureLines(program.app())).toContain('  The picture ../media/torn.svg cannot be read. The disk is torn.');
});

test('when all is over no further picture is read', async () => {
  const room = await workroom(text('one.svg', 'two.svg'));
  const program = await room.program();
  await press(program, '"ines" enter "b-1" enter');
  const asked: string[] = [];
  const slow = Promise.withResolvers<Result<PictureBytes>>();
  const following = followPictures(program, ({ address }) => {
    asked.push(address);
    return slow.promise;
  });
  await vi.waitFor(() => expect(asked).toHaveLength(1));
  following.stop();
  slow.resolve(ok(line));
  await following.seen();
  expect(asked).toEqual(['../media/one.svg']);
});

import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { StoreTrouble } from '../../src/ledger/ledger-store.ts';
import { createRoomFolder, openRoomFolder } from '../../src/storage/room-folder.ts';
import { draft } from './ledger-contract.ts';
import { tempFolder } from './temp-folder.ts';

const practice = { name: 'Practice Room', station: 'table-1' };

it('makes a room, folders and all, and opens it again', async () => {
  const folder = join(tempFolder(), 'deep', 'room');
  const made = await createRoomFolder(folder, practice);
  await made.ledger().append(-1, [draft('enrolled')]);
  await made.close();

  const room = await openRoomFolder(folder);
  expect(room).toMatchObject({ folder, ...practice, settings: { big: false, bell: true } });
  expect(await room.ledger().head()).toBe(0);
  await room.close();
  expect(readdirSync(folder).sort()).toEqual(['.walkfoot', 'media', 'procedures', 'walkfoot.yaml']);
  expect(readdirSync(join(folder, '.walkfoot')).sort()).toEqual(['.gitignore', 'ledger.db']);
  expect(readFileSync(join(folder, '.walkfoot', '.gitignore'), 'utf8')).toBe('*\n');
  expect(statSync(join(folder, '.walkfoot')).mode & 0o777).toBe(0o700);
});

it('opens one ledger however often it is asked', async () => {
  const room = await createRoomFolder(tempFolder(), practice);
  expect(room.ledger()).toBe(room.ledger());
  await room.close();
});

it('makes the ledger of a room that was copied without it', async () => {
  const folder = tempFolder();
  await (await createRoomFolder(folder, practice)).close();
  rmSync(join(folder, '.walkfoot'), { recursive: true });
  const room = await openRoomFolder(folder);
  expect(await room.ledger().head()).toBe(-1);
  await room.close();
});

it('leaves a room that is there as it is', async () => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'walkfoot.yaml'), 'mine');
  await expect(createRoomFolder(folder, practice)).rejects.toThrow(
    /^There is a room in .* already: name another folder/,
  );
  expect(readFileSync(join(folder, 'walkfoot.yaml'), 'utf8')).toBe('mine');
});

it('makes nothing for a station whose name cannot be used', async () => {
  const folder = tempFolder();
  await expect(createRoomFolder(folder, { ...practice, station: 'two words' })).rejects.toThrow(
    'write up to 40 letters',
  );
  expect(readdirSync(folder)).toEqual([]);
});

it('follows a link to the room', async () => {
  const folder = tempFolder();
  mkdirSync(join(folder, 'room'));
  await (await createRoomFolder(join(folder, 'room'), practice)).close();
  symlinkSync(join(folder, 'room'), join(folder, 'link'));
  expect((await openRoomFolder(join(folder, 'link'))).folder).toBe(join(folder, 'room'));
});

it.each<[string, (folder: string) => string, RegExp]>([
  [
    'a missing folder',
    (folder) => join(folder, 'gone'),
    /^There is no folder .*gone: check the name, or run `walkfoot demo/,
  ],
  ['a folder that is no room', (folder) => folder, /^There is no room in .*: run `walkfoot demo .*--room\.$/],
  ['a file', (folder) => write(folder, 'file', ''), /is a file and no folder: name the folder of the room/],
  [
    'a settings folder',
    (folder) => dirname(mkdirSync(join(folder, 'walkfoot.yaml'), { recursive: true }) ?? ''),
    /is a folder where a file should be/,
  ],
  [
    'half written settings',
    (folder) => dirname(write(folder, 'walkfoot.yaml', 'name: A\nstat')),
    /line 2, .* half written/,
  ],
  ['endless settings', (folder) => dirname(write(folder, 'walkfoot.yaml', '#'.repeat(70_000))), /far too long/],
  [
    'a device in the place of the settings',
    (folder) => {
      symlinkSync('/dev/null', join(folder, 'walkfoot.yaml'));
      return folder;
    },
    /walkfoot\.yaml is no file: put back a copy\.$/,
  ],
])('says in one sentence what is wrong with %s', async (_, arrange, sentence) => {
  const trouble = await openRoomFolder(arrange(tempFolder())).catch((error: unknown) => error);
  expect(trouble).toBeInstanceOf(StoreTrouble);
  expect(trouble instanceof Error && trouble.message).toMatch(sentence);
});

it('does not look for a room above the folder it was given', async () => {
  const folder = tempFolder();
  await (await createRoomFolder(folder, practice)).close();
  await expect(openRoomFolder(join(folder, 'procedures'))).rejects.toThrow('There is no room in');
});

function write(folder: string, name: string, content: string): string {
  writeFileSync(join(folder, name), content);
  return join(folder, name);
}

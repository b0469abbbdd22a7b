import { chmodSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { StoreTrouble } from '../../src/ledger/ledger-store.ts';
import { createRoomFolder, openRoomFolder } from '../../src/storage/room-folder.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { makeReadOnly, mounted } from './mounted.ts';

const practice = { name: 'Practice Room', station: 'table-1' };

it('makes no room on a disk set to read-only', async (context) => {
  const folder = mounted(context, 'size=1m');
  makeReadOnly(folder);
  await expectTrouble(
    createRoomFolder(join(folder, 'room'), practice),
    /is on a disk that is set to read-only: make it writable/,
  );
});

it('makes no half room on a full disk', async (context) => {
  const folder = mounted(context, 'size=40k');
  writeFileSync(join(folder, 'ballast'), Buffer.alloc(40_960));
  await expectTrouble(createRoomFolder(folder, practice), /There is no room left on the disk of/);
  expect(readdirSync(folder)).not.toContain('walkfoot.yaml');
  await expectTrouble(openRoomFolder(folder), /There is no room in .*: run `walkfoot demo/);
});

it('opens no ledger where a file stands in the place of its folder', async () => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'walkfoot.yaml'), 'name: A\nstation: table-1\n');
  writeFileSync(join(folder, '.walkfoot'), '');
  const room = await openRoomFolder(folder);
  expect(() => room.ledger()).toThrow(StoreTrouble);
  expect(() => room.ledger()).toThrow(/\.walkfoot is there already: .* move it away\.$/);
});

it.skipIf(process.getuid?.() === 0)('makes no room where the user may not write', async () => {
  const folder = join(tempFolder(), 'shut');
  mkdirSync(folder, { mode: 0o555 });
  await expectTrouble(createRoomFolder(folder, practice), /You may not write or read/);
  chmodSync(folder, 0o755);
});

async function expectTrouble(work: Promise<unknown>, sentence: RegExp): Promise<void> {
  const trouble = await work.catch((error: unknown) => error);
  expect(trouble).toBeInstanceOf(StoreTrouble);
  expect(trouble instanceof StoreTrouble && trouble.message).toMatch(sentence);
}

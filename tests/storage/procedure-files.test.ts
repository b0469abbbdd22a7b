import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { digestOf } from '../../src/ledger/leaf.ts';
import { readPicture } from '../../src/storage/picture-files.ts';
import { findProcedure, listProcedures, readProcedure } from '../../src/storage/procedure-files.ts';
import { releaseTexts } from '../../src/storage/release-texts.ts';
import { tempFolder } from './temp-folder.ts';

const front = (id: string) => `---\nprocedure: ${id}\ntitle: T\n---\n`;

it('lists the drafts in order, without README, folders and hidden files', () => {
  const { room } = files({
    'procedures/b.md': '',
    'procedures/a.md': '',
    'procedures/README.md': '',
    'procedures/.x.md': '',
  });
  mkdirSync(join(room, 'procedures', 'old.md'));
  writeFileSync(join(room, 'procedures', 'notes.txt'), '');
  expect(listProcedures(room)).toEqual(['procedures/a.md', 'procedures/b.md']);
});

it('says in one sentence that the folder of procedures is missing', () => {
  expect(() => listProcedures(tempFolder())).toThrow(/procedures is not there: check/);
});

it.each([['LIN-2207'], ['lining.md'], ['procedures/lining.md'], ['./procedures/../procedures/lining.md']])(
  'finds a procedure called %s',
  (named) => {
    const { room } = files({
      'procedures/lining.md': front('"LIN-2207" # the lining'),
      'procedures/other.md': front('LIN-22070'),
      'procedures/broken.md': '---\nprocedure: LIN-2207',
    });
    expect(value(findProcedure(room, named))).toMatchObject({
      name: 'procedures/lining.md',
      path: join(room, 'procedures/lining.md'),
    });
  },
);

it('finds a file outside the room by its path, and knows that it is outside', () => {
  const draft = join(files({ 'draft.md': front('X-1') }).room, 'draft.md');
  const { room } = files({});
  const found = value(findProcedure(room, draft));
  expect(found.name).toBe(draft);
  expect(rule(releaseTexts(room, found, []))).toBe('procedure-outside');
});

it('keeps the bytes as they are, and reads them without byte order mark', () => {
  const { room } = files({ 'procedures/a.md': '\ufeff# Naht\r\n' });
  const file = value(readProcedure(room, 'procedures/a.md'));
  expect(Buffer.from(file.bytes).toString('hex')).toBe(Buffer.from('\ufeff# Naht\r\n').toString('hex'));
  expect([file.text, file.digest]).toEqual(['# Naht\r\n', digestOf(file.bytes)]);
});

it.each<[string, Record<string, string | Buffer>, string, string]>([
  ['two drafts with one id', { 'procedures/a.md': front('A'), 'procedures/b.md': front('A') }, 'A', 'procedure-twice'],
  ['an id nobody has', { 'procedures/a.md': front('A') }, 'B', 'procedure-missing'],
  ['an id in an empty room', {}, 'A', 'procedure-missing'],
  ['a file that is not there', {}, 'procedures/none.md', 'procedure-missing'],
  ['a text in another encoding', { 'procedures/a.md': Buffer.from([0x4e, 0xe4, 0x68]) }, 'a.md', 'procedure-encoding'],
  ['a text without end', { 'procedures/a.md': Buffer.alloc(2_000_001, 'x') }, 'a.md', 'procedure-large'],
])('refuses %s', (_, content, named, expected) => {
  expect(rule(findProcedure(files(content).room, named))).toBe(expected);
});

it('refuses a draft that is a link out of the room', () => {
  const { room } = files({ 'procedures/a.md': front('A') });
  symlinkSync('/etc/hostname', join(room, 'procedures', 'b.md'));
  expect(rule(readProcedure(room, 'procedures/b.md'))).toBe('procedure-outside');
  expect(value(findProcedure(room, 'A')).name).toBe('procedures/a.md');
});

it.each(['../media/lining.svg', '../media/Lining%20%C3%A9.PNG', '../media/../media/lining.svg', '../media/link.svg'])(
  'reads the picture %s',
  (address) => {
    const { room } = files({ 'media/lining.svg': '<svg/>', 'media/Lining é.PNG': '<svg/>' });
    symlinkSync('lining.svg', join(room, 'media', 'link.svg'));
    expect(value(readPicture(room, 'procedures/a.md', address)).digest).toBe(digestOf(Buffer.from('<svg/>')));
  },
);

it('says of the pictures of a text from elsewhere that the room is named wrongly, not that they are', () => {
  const { room, outer } = files({});
  const found = readPicture(room, join(outer, 'procedures/a.md'), '../media/lining.svg');
  expect(found).toMatchObject({ ok: false, error: { message: expect.stringContaining('--room') } });
});

it.each([
  ['../../secret.svg', 'picture-outside'],
  ['../media/%2e%2e/%2E%2E/secret.svg', 'picture-outside'],
  ['../../nothing.svg', 'picture-outside'],
  ['../media/out.svg', 'picture-outside'],
  ['../out/secret.svg', 'picture-outside'],
  ['/etc/x.svg', 'picture-address'],
  ['//server/x.svg', 'picture-address'],
  ['https://example.org/x.svg', 'picture-address'],
  ['data:image/svg+xml,x.svg', 'picture-address'],
  ['file:///etc/x.svg', 'picture-address'],
  ['..\\media\\lining.svg', 'picture-address'],
  ['../media/x%00.svg', 'picture-address'],
  ['../media/%zz.svg', 'picture-address'],
  ['', 'picture-address'],
  ['../media/none.svg', 'picture-missing'],
  ['../media/lining.svg/x.svg', 'picture-unreadable'],
  ['../media/lining.gif', 'picture-kind'],
  ['../media/disguised.svg', 'picture-kind'],
  ['../media/folder.svg', 'picture-kind'],
  ['../media/large.png', 'picture-large'],
])('refuses the picture %s: %s', (address, expected) => {
  const { room, outer } = files({
    'media/lining.svg': '<svg/>',
    'media/lining.gif': 'GIF89a',
    'media/large.png': Buffer.alloc(5_000_001),
    '../secret.svg': 'secret',
  });
  mkdirSync(join(room, 'media', 'folder.svg'));
  symlinkSync(join(outer, 'secret.svg'), join(room, 'media', 'out.svg'));
  symlinkSync('lining.gif', join(room, 'media', 'disguised.svg'));
  symlinkSync(outer, join(room, 'out'));
  const picture = readPicture(room, 'procedures/a.md', address);
  expect(rule(picture)).toBe(expected);
  expect(!picture.ok && picture.error.message).toMatch(/^[^.].*: .*\.$/s);
});

it('gathers what a release freezes', () => {
  const { room } = files({ 'procedures/a.md': front('A'), 'media/a.svg': '<svg/>' });
  const file = value(readProcedure(room, 'procedures/a.md'));
  const texts = value(releaseTexts(room, file, ['../media/a.svg']));
  expect([texts.procedure.name, ...texts.pictures.map(({ name, address }) => [name, address])]).toEqual([
    'procedures/a.md',
    ['media/a.svg', '../media/a.svg'],
  ]);
  expect(rule(releaseTexts(room, file, ['../media/a.svg', '../media/none.svg']))).toBe('picture-missing');
});

/** A room's folder with these files, in a folder of its own. */
function files(content: Readonly<Record<string, string | Buffer>>) {
  const outer = tempFolder();
  const room = join(outer, 'room');
  for (const part of ['procedures', 'media']) mkdirSync(join(room, part), { recursive: true });
  for (const [name, text] of Object.entries(content)) writeFileSync(join(room, name), text);
  return { room, outer };
}

type Answer<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: { readonly rule: string } };

function value<T>(result: Answer<T>): T {
  if (!result.ok) throw new Error(`refused: ${JSON.stringify(result.error)}`);
  return result.value;
}

const rule = (result: Answer<unknown>): string | undefined => (result.ok ? undefined : result.error.rule);

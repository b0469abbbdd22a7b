import { spawnSync } from 'node:child_process';
import { mkdir, mkdtemp, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import type { Io } from '../../src/commands/io.ts';
import { outlineCommand } from '../../src/commands/outline.ts';
import { proofreadCommand } from '../../src/commands/proofread.ts';

const GOOD = '---\nprocedure: A\ntitle: B\n---\n\n## Fold\n\n- If out: hold\n- [ ] Width, flat ____ mm (12 ±1)\n';
const BAD = `${GOOD}-[ ] Two\n`;

async function room(
  files: Readonly<Record<string, string | Uint8Array>>,
): Promise<{ io: Io; printed: { out: string; err: string } }> {
  const cwd = await mkdtemp(join(tmpdir(), 'proofread-'));
  await mkdir(join(cwd, 'procedures'));
  for (const [name, text] of Object.entries(files)) await writeFile(join(cwd, 'procedures', name), text);
  const printed = { out: '', err: '' };
  const io = {
    cwd,
    out: (text: string) => {
      printed.out += text;
    },
    err: (text: string) => {
      printed.err += text;
    },
  };
  return { io: io as Io, printed };
}

test('every procedure of the room is proofread, the guide is not', async () => {
  const { io, printed } = await room({ 'a.md': GOOD, 'b.md': BAD.replace(': A', ': B'), 'README.md': '# Guide' });
  expect(await proofreadCommand([], { json: true }, io)).toBe(1);
  expect(JSON.parse(printed.out)).toMatchObject([
    { file: 'procedures/b.md', line: 10, column: 1, rule: 'box-malformed', severity: 'error' },
  ]);
});

test('a good file is 0, a missing, huge or binary one is 2 and a sentence', async () => {
  const { io, printed } = await room({
    'a.md': GOOD,
    'huge.md': 'a'.repeat(2_000_001),
    'bin.md': new Uint8Array([0xff, 0xfe, 0xfd]),
  });
  expect(await proofreadCommand(['procedures/a.md'], {}, io)).toBe(0);
  for (const name of ['none.md', 'huge.md', 'bin.md', '']) {
    printed.err = '';
    expect(await proofreadCommand([`procedures/${name}`], {}, io)).toBe(2);
    expect(printed.err).toMatch(/^walkfoot: [^\n]+\.\n$/);
  }
});

test('of a text outside the room it is said that nobody looked at its pictures', async () => {
  const shown = GOOD.replace('- [ ]', '\n![Fold](../media/fold.svg)\n\n- [ ]');
  const [here, there] = [await room({}), await room({ 'a.md': GOOD, 'b.md': shown.replace(': A', ': B') })];
  const file = (name: string) => join(there.io.cwd, 'procedures', name);
  expect(await proofreadCommand([file('a.md')], {}, here.io)).toBe(0);
  expect(here.printed.err).toBe('');
  expect(await proofreadCommand([file('b.md')], {}, here.io)).toBe(0);
  expect(here.printed.err).toMatch(/b\.md lies outside this room, so its pictures were not looked at: .*--room\.\n$/);
});

test('a text is proofread in the room it lies in, wherever the command was called', async () => {
  const shown = GOOD.replace('- [ ]', '\n![Fold](../media/fold.svg)\n\n- [ ]');
  const [here, there] = [await room({ 'a.md': GOOD }), await room({ 'a.md': shown, 'b.md': shown })];
  const within = join(here.io.cwd, 'practice-room');
  await rename(there.io.cwd, within);
  await writeFile(join(within, 'walkfoot.yaml'), 'name: A\nstation: t\n');
  expect(await proofreadCommand(['practice-room/procedures/a.md'], { json: true }, here.io)).toBe(1);
  const file = 'practice-room/procedures/a.md';
  expect(JSON.parse(here.printed.out)).toMatchObject([
    { file, rule: 'picture-missing', message: expect.stringContaining('There is no picture') },
    { file, rule: 'procedure-twice', message: expect.stringMatching(/^procedures\/b\.md has the same id/) },
  ]);
  expect(here.printed.err).toBe('');
});

test('a file of the room that cannot be read is a finding, and hides nothing of the others', async () => {
  const { io, printed } = await room({ 'a.md': new Uint8Array([0x4e, 0xe4, 0x68]), 'b.md': BAD.replace(': A', ': B') });
  expect(spawnSync('mkfifo', [join(io.cwd, 'procedures', 'c.md')]).status).toBe(0);
  expect(await proofreadCommand([], { json: true }, io)).toBe(1);
  expect(JSON.parse(printed.out)).toMatchObject([
    { file: 'procedures/a.md', rule: 'file-unreadable', severity: 'error', message: expect.stringMatching(/UTF-8/) },
    { file: 'procedures/b.md', rule: 'box-malformed' },
    { file: 'procedures/c.md', rule: 'file-unreadable', message: expect.stringMatching(/no file/) },
  ]);
});

test('of several files that are named the readable ones are read, and the end is 2', async () => {
  const { io, printed } = await room({ 'a.md': new Uint8Array([0x4e, 0xe4, 0x68]), 'b.md': BAD });
  expect(await proofreadCommand(['procedures/a.md', 'procedures/none.md', 'procedures/b.md'], {}, io)).toBe(2);
  expect(printed.err.trim().split('\n')).toHaveLength(2);
  expect(printed.out).toContain('box-malformed');
});

test('two texts with one id are a finding in both, also when one of them is named', async () => {
  const { io, printed } = await room({ 'a.md': GOOD, 'b.md': GOOD.replace(': A', ': a'), 'a.es.md': GOOD });
  expect(await proofreadCommand([], { json: true }, io)).toBe(1);
  const twice = (of: string, other: string) => ({
    file: `procedures/${of}`,
    line: 2,
    rule: 'procedure-twice',
    severity: 'error',
    message: expect.stringContaining(other),
  });
  const found = JSON.parse(printed.out).filter(({ rule }: { rule: string }) => rule === 'procedure-twice');
  expect(found).toMatchObject([twice('a.md', 'procedures/b.md'), twice('b.md', 'procedures/a.md')]);
  printed.out = '';
  expect(await proofreadCommand(['procedures/b.md'], { json: true }, io)).toBe(1);
  expect(JSON.parse(printed.out)).toMatchObject([twice('b.md', 'procedures/a.md')]);
});

test('a sheet without its main text is an error', async () => {
  const { io, printed } = await room({ 'a.es.md': GOOD.replace('Fold', 'Doble') });
  expect(await proofreadCommand([], { json: true }, io)).toBe(1);
  expect(JSON.parse(printed.out)).toContainEqual(expect.objectContaining({ rule: 'sheet-alone', severity: 'error' }));
});

test('an empty room says that there is nothing to read', async () => {
  const { io, printed } = await room({});
  expect(await proofreadCommand([], {}, io)).toBe(2);
  expect(printed.err).toContain('There are no procedures here');
});

test('the outline shows each point with its limit', async () => {
  const { io, printed } = await room({ 'a.md': GOOD });
  expect(await outlineCommand('procedures/a.md', {}, io)).toBe(0);
  expect(printed.out).toContain('- reading: Width, flat, 11 to 13 mm  (width-flat, line 9)');
  printed.out = '';
  await outlineCommand('procedures/a.md', { json: true }, io);
  expect(JSON.parse(printed.out)).toMatchObject({
    procedure: 'A',
    title: 'B',
    steps: [
      {
        number: 1,
        id: 'fold',
        line: 6,
        points: [{ id: 'width-flat', kind: 'reading', low: '11', high: '13', nominal: '12', places: 1, options: null }],
      },
    ],
  });
});

test('a rule is explained by its name or number, and a wrong name by the nearest', async () => {
  const { io, printed } = await room({});
  expect(await proofreadCommand([], { explain: 'ambiguous-word' }, io)).toBe(0);
  expect(printed.out).toContain('ambiguous-word (L17): a warning, which a text may silence with a reason');
  expect(printed.out).toContain('    Lay the sleeve approximately on its line.');
  printed.out = '';
  expect(await proofreadCommand([], { explain: 'l15' }, io)).toBe(0);
  expect(printed.out).toMatch(/measured-where \(L15\)[\s\S]+places-as-blanks \(L15, L42\)/);
  printed.out = '';
  expect(await proofreadCommand([], { explain: 'L14' }, io)).toBe(0);
  expect(printed.out).toMatch(/^L14 {2}Limit not finer/);
  printed.out = '';
  expect(await proofreadCommand([], { explain: 'hidden-character' }, io)).toBe(0);
  expect(printed.out).toMatch(/Found in\n\n {4}- \[ \] Edges⟨U\+202E⟩ flat\n\nand not in/);
  printed.out = '';
  expect(await proofreadCommand([], { explain: 'sheet-alone' }, io)).toBe(0);
  expect(printed.out).toContain('no text can show it');
  expect(await proofreadCommand([], { explain: 'ambigous-word' }, io)).toBe(2);
  expect(printed.err).toContain('did you mean ambiguous-word?');
});

test('without a name all rules are listed, and where the others are kept', async () => {
  const { io, printed } = await room({});
  expect(await proofreadCommand([], { explain: true }, io)).toBe(0);
  expect(printed.out).toMatch(/^step-begins-with-verb +warning {2}L01$/m);
  expect(printed.out).toMatch(/^blank-malformed +error$/m);
  expect(printed.out).toMatch(/^L37 {2}Bobbin/m);
});

test('what is silenced is counted for people and listed with its reason for programs', async () => {
  const text = GOOD.replace('title: B\n', 'title: B\nsilenced:\n  measured-where: there is one width only\n').replace(
    'Width, flat',
    'Width',
  );
  const { io, printed } = await room({ 'a.md': text });
  expect(await proofreadCommand([], {}, io)).toBe(0);
  expect(printed.out).toContain('Nothing to mend in 1 file.\n1 finding silenced at the top of the text');
  printed.out = '';
  expect(await proofreadCommand([], { json: true }, io)).toBe(0);
  expect(JSON.parse(printed.out)).toMatchObject([{ rule: 'measured-where', silenced: 'there is one width only' }]);
});

test('with --watch it is printed afresh after a save, within 100 ms', async () => {
  const { io, printed } = await room({ 'a.md': GOOD });
  const path = join(io.cwd, 'procedures', 'a.md');
  const ended = proofreadCommand([], { watch: true }, { ...io, stdout: {} as Io['stdout'] });
  await vi.waitFor(() => expect(printed.err).toContain('Watching for saves'));
  const took: number[] = [];
  for (let round = 1; round <= 5; round += 1) {
    printed.out = '';
    await writeFile(`${path}.new`, round % 2 === 1 ? BAD : GOOD);
    const start = performance.now();
    await rename(`${path}.new`, path);
    const said = round % 2 === 1 ? 'box-malformed' : 'Nothing to mend';
    await vi.waitFor(() => expect(printed.out).toContain(said), { timeout: 10_000, interval: 2 });
    took.push(performance.now() - start);
  }
  // On a machine that is busy with other things a round may be late; most are not.
  expect(took.toSorted((a, b) => a - b)[2]).toBeLessThan(100);
  await rm(join(io.cwd, 'procedures'), { recursive: true });
  expect(await ended).toBe(2);
  expect(printed.err).toContain('can no longer be watched');
});

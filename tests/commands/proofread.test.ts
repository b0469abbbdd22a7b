import { mkdir, mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Io } from '../../src/commands/io.ts';
import { outlineCommand } from '../../src/commands/outline.ts';
import { proofreadCommand } from '../../src/commands/proofread.ts';

const GOOD = '---\nprocedure: A\ntitle: B\n---\n\n## S\n\n- [ ] Width ____ mm (12 ±1)\n';
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
  const { io, printed } = await room({ 'a.md': GOOD, 'b.md': BAD, 'README.md': '# Guide' });
  expect(await proofreadCommand([], { json: true }, io)).toBe(1);
  expect(JSON.parse(printed.out)).toMatchObject([
    { file: 'procedures/b.md', line: 9, column: 1, rule: 'box-malformed', severity: 'error' },
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

test('an empty room says that there is nothing to read', async () => {
  const { io, printed } = await room({});
  expect(await proofreadCommand([], {}, io)).toBe(2);
  expect(printed.err).toContain('There are no procedures here');
});

test('the outline shows each point with its limit', async () => {
  const { io, printed } = await room({ 'a.md': GOOD });
  expect(await outlineCommand('procedures/a.md', {}, io)).toBe(0);
  expect(printed.out).toContain('- reading: Width, 11 to 13 mm  (width, line 8)');
  printed.out = '';
  await outlineCommand('procedures/a.md', { json: true }, io);
  expect(JSON.parse(printed.out)).toMatchObject({
    procedure: 'A',
    title: 'B',
    steps: [
      {
        number: 1,
        id: 's',
        line: 6,
        points: [{ id: 'width', kind: 'reading', low: '11', high: '13', nominal: '12', places: 1, options: null }],
      },
    ],
  });
});

import headless from '@xterm/headless';
import { expect, test } from 'vitest';
import { Canvas } from '../../src/terminal/canvas.ts';
import type { Terminal } from '../../src/terminal/open-terminal.ts';
import { erased } from '../../src/terminal/placed-picture.ts';

const placed = {
  picture: { way: 'sixel', bytes: '#' },
  column: 2,
  row: 1,
  columns: 3,
  rows: 2,
  beside: '',
} as const;

function canvas() {
  let sent = '';
  const stdout = { write: (text: string) => (sent += text) };
  const made = new Canvas({ stdout, size: () => ({ columns: 20, rows: 6 }) } as unknown as Terminal);
  return { canvas: made, pixels: () => sent.replace(/[^#]/g, '').length };
}

test('while the screen is emptied no pixels are drawn, by a frame or without one; then they are, once', () => {
  const { canvas: screen, pixels } = canvas();
  screen.empty();
  screen.place(placed);
  screen.settle();
  screen.write('a frame');
  expect(pixels()).toBe(0);
  screen.fill();
  screen.fill();
  expect(pixels()).toBe(1);
});

test('cells under pixels become blank in the colour of the ground, whatever was written last, and the cursor stays', async () => {
  const screen = new headless.Terminal({ cols: 10, rows: 4, allowProposedApi: true });
  const text = `${'xxxxxxxxxx'.repeat(4)}\x1b[4;5H\x1b[41m${erased(placed)}`;
  await new Promise<void>((done) => screen.write(text, done));
  const cell = screen.buffer.active.getLine(1)?.getCell(2);
  expect([cell?.getChars() ?? '', cell?.isBgDefault()]).toEqual(['', true]);
  const rows = Array.from({ length: 4 }, (_, row) => screen.buffer.active.getLine(row)?.translateToString());
  expect(rows).toEqual(['xxxxxxxxxx', 'xx   xxxxx', 'xx   xxxxx', 'xxxxxxxxxx']);
  expect([screen.buffer.active.cursorX, screen.buffer.active.cursorY]).toEqual([4, 3]);
});

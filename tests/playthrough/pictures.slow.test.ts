import { afterEach, expect, test } from 'vitest';
import { type RealTerminal, startTerminal } from '../screens/real-terminal.ts';
import { practiceRoom, program } from './lining.ts';

const ends: (() => void)[] = [];
afterEach(() => {
  for (const end of ends.splice(0)) end();
});

/** Ines at B-1041 on a wide screen, at the point after the cautions of step 9. `says` is what the terminal says it is. */
async function atTopStitch(says?: string): Promise<RealTerminal> {
  const room = practiceRoom();
  const terminal = startTerminal({
    command: process.execPath,
    args: [program, 'sew', 'B-1041', '--hand', 'Ines', '--room', room.folder],
    columns: 110,
    rows: 30,
    ...(says === undefined ? {} : { says }),
  });
  ends.push(() => {
    try {
      terminal.kill('SIGKILL');
    } catch {}
    room.remove();
  });
  await terminal.waitFor('1 of 2');
  await terminal.press('\r');
  await terminal.waitFor('2 of 2');
  await terminal.press('\r');
  await terminal.waitFor('› Bobbin before');
  return terminal;
}

const SIXEL = '\x1b[?63;1;2;4;22c';
const begins = (bytes: string): number => bytes.split('\x1bP0;1;q').length - 1;

test('a terminal of characters shows the drawing beside the words, with what is sewn as stitches', async () => {
  const terminal = await atTopStitch();
  await terminal.waitFor(/T1 [⠀-⣿]{20}/);
  expect(terminal.text()).toMatch(/⠤⠤⠤ {2}⠤⠤⠤|⠒⠒⠒ {2}⠒⠒⠒|⠉⠉⠉ {2}⠉⠉⠉|⣀⣀⣀ {2}⣀⣀⣀/);
  expect(begins(terminal.bytes())).toBe(0);
  terminal.resize(80, 24);
  await terminal.waitFor((screen) => screen.length === 24 && !/[⠁-⣿]/.test(screen.join('')));
  await terminal.press('p');
  await terminal.waitFor(/Picture: Four rows on the face[\s\S]*T1 [⠀-⣿]{20}/);
  await terminal.press('\x1b');
  await terminal.waitFor('› Bobbin before');
  expect(terminal.text()).not.toMatch(/[⠁-⣿]/);
});

test('a terminal with sixels shows it in pixels, once for each screen, and is given back without them', async () => {
  const terminal = await atTopStitch(SIXEL);
  await expect.poll(() => begins(terminal.bytes()), { timeout: 10_000 }).toBeGreaterThan(0);
  await terminal.waitFor((screen) => !/[⠁-⣿]/.test(screen.join('')));
  const before = begins(terminal.bytes());
  await terminal.press('p');
  await terminal.waitFor('Picture: Four rows on the face');
  await expect.poll(() => begins(terminal.bytes()), { timeout: 10_000 }).toBe(before + 1);
  await terminal.press('\x1b');
  await expect.poll(() => begins(terminal.bytes()), { timeout: 10_000 }).toBe(before + 2);
  // What the terminal answered was no key: nothing was typed, refused or recorded.
  expect(terminal.text()).toContain('› Bobbin before');
  expect(terminal.text()).not.toMatch(/! /);
  await terminal.press('l');
  expect((await terminal.exited).code).toBe(0);
  expect(terminal.altScreen()).toBe(false);
  // The last picture was taken out of its cells before the screen was given back.
  const after = terminal.bytes().slice(terminal.bytes().lastIndexOf('\x1bP0;1;q'));
  expect(after).toMatch(/\x1b\[\d+X[\s\S]*\x1b\[\?1049l/);
});

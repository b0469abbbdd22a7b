import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { bundling } from '../../src/widgets/stubs/bundling.ts';
import { type RealTerminal, startTerminal } from '../screens/real-terminal.ts';

const started: RealTerminal[] = [];
const folders: string[] = [];
afterEach(() => {
  for (const one of started.splice(0)) {
    try {
      one.kill('SIGKILL');
    } catch {}
  }
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

const bundled = mkdtempSync(join(tmpdir(), 'walkfoot-sample-'));
const program = join(bundled, 'sample.mjs');
beforeAll(async () => {
  await build({
    ...bundling,
    entryPoints: ['tests/terminal/sample.tsx'],
    outfile: program,
    sourcemap: 'inline',
  });
});
afterAll(() => rmSync(bundled, { recursive: true, force: true }));

/**
 * The sample program run by a shell that says what it finds afterwards: the exit code and the terminal's settings. The pid is
 * the shell's; the sample's own stands on the first line, on the main screen.
 */
async function sample(env: Readonly<Record<string, string | undefined>> = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'walkfoot-'));
  folders.push(folder);
  const said = join(folder, 'said');
  const script = [
    'echo before',
    `"${process.execPath}" --enable-source-maps "${program}" 2>${said} & echo "pid $!"`,
    'fg >/dev/null 2>&1; code=$?',
    // 128 + SIGSTOP: the shell has the terminal, writes on it, and gives it back.
    'if [ $code = 147 ]; then echo dirt; stty sane; fg >/dev/null 2>&1; code=$?; fi',
    `head -n 4 ${said}`,
    'echo "code $code"',
    "stty -a | tr ' ;' '\\n\\n' | grep -xE -- '-?(echo|icanon|isig|ixon|opost|icrnl)' | tr '\\n' ' '",
  ].join('\n');
  const terminal = startTerminal({ command: 'bash', args: ['-mc', script], columns: 60, rows: 12, env });
  started.push(terminal);
  await terminal.waitFor(/^top 60x12[\s\S]*bottom$/);
  const pid = Number(/pid (\d+)/.exec(terminal.bytes())?.[1]);
  return Object.assign(terminal, {
    said: () => readFileSync(said, 'utf8'),
    signal: (signal: NodeJS.Signals | 0) => process.kill(pid, signal),
  });
}

async function expectGivenBack(terminal: RealTerminal, code: number): Promise<void> {
  await terminal.waitFor(/^code \d+$/m);
  await terminal.exited;
  expect(terminal.altScreen()).toBe(false);
  expect(terminal.cursorVisible()).toBe(true);
  const bytes = terminal.bytes();
  expect(terminal.text()).toContain(`code ${code}`);
  expect(terminal.text()).toMatch(/icrnl ixon opost isig icanon echo$/);
  expect(bytes.lastIndexOf('\x1b[?2004l')).toBeGreaterThan(bytes.lastIndexOf('\x1b[?2004h'));
  expect(terminal.text()).toMatch(/^before/);
  expect(terminal.text()).not.toContain('top 60x12');
}

describe('the terminal is given back', () => {
  test('when a key says so', async () => {
    const terminal = await sample();
    expect(terminal.altScreen()).toBe(true);
    expect(terminal.cursorVisible()).toBe(false);
    terminal.type('\x03');
    await expectGivenBack(terminal, 0);
  });

  test.each([
    ['SIGTERM', 143],
    ['SIGHUP', 129],
    ['SIGINT', 130],
  ] as const)('on %s, and there is time to note the pause', async (signal, code) => {
    const terminal = await sample();
    terminal.signal(signal);
    await expectGivenBack(terminal, code);
    expect(terminal.text()).toContain('paused by signal');
  });

  test('also when the noting hangs', async () => {
    const terminal = await sample({ SAMPLE_HANGS: 'yes' });
    terminal.signal('SIGTERM');
    await expectGivenBack(terminal, 143);
  });

  test('a closed window ends the program, and the pause is noted', async () => {
    const terminal = await sample();
    terminal.hangUp();
    await expect.poll(() => terminal.said(), { timeout: 5000 }).toMatch(/^paused by (signal|gone)$/m);
    await vi.waitFor(() => expect(() => terminal.signal(0)).toThrow('ESRCH'), { timeout: 5000 });
  });

  test.each([
    ['an error in a key handler', '\x1bOP', 'crashed on purpose'],
    ['a rejection nobody handles', '\x1bOQ', 'rejected on purpose'],
    ['a component that throws', '\x1bOR', 'broken picture'],
  ])('after %s, with the stack where it can be read', async (_, key, message) => {
    const terminal = await sample();
    terminal.type(key);
    await expectGivenBack(terminal, 70);
    expect(terminal.text()).toContain(`Error: ${message}`);
  });
});

describe('the screen', () => {
  test('is whole again after each change of size', async () => {
    const terminal = await sample();
    const whole = (columns: number, rows: number) => (screen: readonly string[]) =>
      screen.length === rows &&
      screen[0] === `top ${columns}x${rows} ${'-'.repeat(columns)}`.slice(0, columns) &&
      screen.slice(1, -1).every((row) => row === '') &&
      screen.at(-1) === `${'='.repeat(columns - 7)} bottom`;
    for (const [columns, rows] of [
      [30, 12],
      [90, 30],
      [90, 6],
      [20, 5],
      [100, 8],
      [60, 12],
    ] as const) {
      terminal.resize(columns, rows);
      await terminal.waitFor(whole(columns, rows));
    }
  });

  test('comes back when the program was stopped and continued', async () => {
    const terminal = await sample();
    terminal.signal('SIGSTOP');
    await vi.waitFor(() => expect(terminal.bytes()).toMatch(/dirt[\s\S]*bottom/));
    terminal.type('x');
    await terminal.waitFor(/^top [^\n]*\ntext:x\n\n[=\n]+ bottom$/);
    expect(terminal.text()).not.toContain('dirt');
  });

  test('is drawn although CI is set', async () => {
    const terminal = await sample({ CI: '' });
    expect(terminal.altScreen()).toBe(true);
  });
});

describe('keys in a real terminal', () => {
  test('a lone Escape, an arrow, a scan, a paste and a word are told apart', async () => {
    const terminal = await sample();
    terminal.type('\x1b');
    await terminal.waitFor('escape');
    terminal.type('\x1b[A');
    await terminal.waitFor('escape up');
    terminal.type('B-1041\r');
    await terminal.waitFor('up scan:B-1041');
    terminal.type('\x1b[200~one\rtwo\x1b[201~');
    await terminal.waitFor('paste:one');
    await terminal.press('h', '\r', '\r');
    await terminal.waitFor('text:h enter:no enter:no');
  });

  test('the bell rings once', async () => {
    const terminal = await sample();
    terminal.type('\x1bOS');
    await terminal.press('x');
    await terminal.waitFor('text:x');
    expect(terminal.bells()).toBe(1);
  });
});

import { spawn } from '@lydell/node-pty';
import headless from '@xterm/headless';

interface TerminalOptions {
  readonly command: string;
  readonly args?: readonly string[];
  readonly cwd?: string;
  readonly columns?: number;
  readonly rows?: number;
  /** What the emulator answers to the question what it is (DA1), instead of its own. */
  readonly says?: string;
  /** Added to the test's own environment; `undefined` takes a variable out. `CI` is always taken out. */
  readonly env?: Readonly<Record<string, string | undefined>>;
}

interface Cell {
  readonly text: string;
  readonly columns: number;
  readonly bold: boolean;
  readonly dim: boolean;
  readonly italic: boolean;
  readonly underlined: boolean;
  readonly inverse: boolean;
  readonly struck: boolean;
  /** Number in the palette or 0xRRGGBB; `undefined` for the terminal's own colour. */
  readonly foreground: number | undefined;
  readonly background: number | undefined;
}

export interface RealTerminal {
  /** Types at once, as a device or a paste would. */
  type(text: string): void;
  /** Types one key after another as a person would, slowly enough that no key is taken for a held one or for a scanner's. */
  press(...keys: readonly string[]): Promise<void>;
  /** The rows on the screen, without the spaces behind them. */
  screen(): readonly string[];
  /** The rows joined by line feeds, without the empty ones at the end. */
  text(): string;
  /** Waits until the screen fits; fails with the screen in the message. */
  waitFor(what: string | RegExp | ((screen: readonly string[]) => boolean), ms?: number): Promise<void>;
  resize(columns: number, rows: number): void;
  kill(signal?: NodeJS.Signals): void;
  /** Closes the terminal under the program, as when its window is closed. */
  hangUp(): void;
  readonly pid: number;
  /** Done when the program has ended and the screen shows all it wrote. */
  readonly exited: Promise<{ readonly code: number; readonly signal: number }>;
  cell(column: number, row: number): Cell;
  /** Everything the program wrote, as it wrote it. */
  bytes(): string;
  altScreen(): boolean;
  cursorVisible(): boolean;
  /** How often the bell rang. */
  bells(): number;
}

const HAND_PACE = 150;

/** Starts a program in a real pseudo-terminal whose screen is a terminal emulator. */
export function startTerminal(options: TerminalOptions): RealTerminal {
  const { command, args = [], cwd = process.cwd(), columns = 80, rows = 24, says } = options;
  const screen = new headless.Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 1000 });
  const env: Record<string, string | undefined> = { ...process.env, TERM: 'xterm-256color', ...options.env };
  for (const name of ['CI', 'CONTINUOUS_INTEGRATION', 'VITEST', 'NODE_ENV'])
    if (!(name in (options.env ?? {}))) delete env[name];
  for (const name of Object.keys(env)) if (env[name] === undefined) delete env[name];
  const program = spawn(command, [...args], { name: 'xterm-256color', cols: columns, rows, cwd, env });

  let bytes = '';
  let bells = 0;
  let ended: string | undefined;
  let lastPress = 0;
  const changed = new Set<() => void>();
  const tell = (): void => {
    for (const fn of [...changed]) fn();
  };
  screen.onBell(() => {
    bells++;
  });
  // The emulator answers what it is asked, as a terminal does.
  screen.onData((answer) => program.write(says !== undefined && /^\x1b\[\?[\d;]*c$/.test(answer) ? says : answer));
  program.onData((data) => {
    // What was sent counts when the emulator shows it: it reads a turn later.
    screen.write(data, () => {
      bytes += data;
      tell();
    });
  });
  const exited = new Promise<{ code: number; signal: number }>((resolve) => {
    program.onExit(({ exitCode, signal = 0 }) => {
      ended = `code ${exitCode}, signal ${signal}`;
      screen.write('', () => {
        tell();
        resolve({ code: exitCode, signal });
      });
    });
  });

  const rowsNow = (): readonly string[] =>
    Array.from({ length: screen.rows }, (_, row) => {
      const { active } = screen.buffer;
      return (active.getLine(active.baseY + row)?.translateToString(true) ?? '').trimEnd();
    });
  const text = (): string => rowsNow().join('\n').trimEnd();
  const fits = (what: string | RegExp | ((screen: readonly string[]) => boolean)): boolean => {
    if (typeof what === 'function') return what(rowsNow());
    return typeof what === 'string' ? text().includes(what) : what.test(text());
  };

  return {
    type: (keys) => program.write(keys),
    async press(...keys) {
      for (const key of keys) {
        const wait = lastPress + HAND_PACE - performance.now();
        if (wait > 0) await new Promise((resolve) => setTimeout(resolve, wait));
        lastPress = performance.now();
        program.write(key);
      }
    },
    screen: rowsNow,
    text,
    waitFor: (what, ms = 10_000) =>
      new Promise((resolve, reject) => {
        const look = (): void => {
          if (fits(what)) settle(resolve);
        };
        const fail = (): void =>
          settle(() =>
            reject(
              new Error(
                `waited ${ms} ms for ${String(what)}${ended ? `; ended with ${ended}` : ''}\n${framed(rowsNow())}`,
              ),
            ),
          );
        const timer = setTimeout(fail, ms);
        const settle = (done: () => void): void => {
          clearTimeout(timer);
          changed.delete(look);
          done();
        };
        changed.add(look);
        look();
      }),
    resize(toColumns, toRows) {
      screen.resize(toColumns, toRows);
      program.resize(toColumns, toRows);
    },
    kill: (signal = 'SIGTERM') => process.kill(program.pid, signal),
    hangUp: () => (program as unknown as { destroy(): void }).destroy(),
    pid: program.pid,
    exited,
    cell: (column, row) => cellOf(screen, column, row),
    bytes: () => bytes,
    altScreen: () => screen.buffer.active.type === 'alternate',
    cursorVisible: () => bytes.lastIndexOf('\x1b[?25h') >= bytes.lastIndexOf('\x1b[?25l'),
    bells: () => bells,
  };
}

function framed(rows: readonly string[]): string {
  const width = Math.max(...rows.map((row) => row.length), 1);
  const edge = `+${'-'.repeat(width)}+`;
  return [edge, ...rows.map((row) => `|${row.padEnd(width)}|`), edge].join('\n');
}

function cellOf(screen: InstanceType<typeof headless.Terminal>, column: number, row: number): Cell {
  const { active } = screen.buffer;
  const cell = active.getLine(active.baseY + row)?.getCell(column);
  if (!cell) throw new Error(`no cell at column ${column}, row ${row}`);
  return {
    text: cell.getChars(),
    columns: cell.getWidth(),
    bold: cell.isBold() !== 0,
    dim: cell.isDim() !== 0,
    italic: cell.isItalic() !== 0,
    underlined: cell.isUnderline() !== 0,
    inverse: cell.isInverse() !== 0,
    struck: cell.isStrikethrough() !== 0,
    foreground: cell.isFgDefault() ? undefined : cell.getFgColor(),
    background: cell.isBgDefault() ? undefined : cell.getBgColor(),
  };
}

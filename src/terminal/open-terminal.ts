import type { Hearing } from '../keys/bursts.ts';
import type { Key } from '../keys/key.ts';
import { readKeys } from './read-keys.ts';

export interface Size {
  readonly columns: number;
  readonly rows: number;
}

export interface Terminal {
  readonly stdout: NodeJS.WriteStream;
  size(): Size;
  /** Calls `fn` after each change of size, also where as many cells are of another size; the answer ends it. */
  onResize(fn: (size: Size) => void): () => void;
  /** Calls `fn` with each key. `hearing` is asked anew for every key, since the key before it may have opened a field. */
  onKeys(fn: (key: Key) => void, hearing: () => Hearing): () => void;
  /** Calls `fn` with what the terminal answers to a question, while keys are read; the answer ends it. */
  onAnswer(fn: (bytes: string) => void): () => void;
  /** Calls `fn` when the terminal is gone: its window closed, or the line dropped. */
  onGone(fn: () => void): () => void;
  /** Calls `fn` before the screen is given back, the latest first: whoever draws stops drawing. */
  onClose(fn: () => void): () => void;
  bell(): void;
  /** Takes raw mode and the screen again, after something else had the terminal (the process was stopped and continued). */
  retake(): void;
  /** Gives everything back as it was found; more than once does nothing more. Done when it returns. */
  close(): void;
}

// Main screen, cursor and attributes are given back by name, not by asking: a terminal that died in mid-frame answers nothing.
const TAKE = '\x1b[?1049h\x1b[?25l\x1b[?2004h\x1b[2J\x1b[H';
const GIVE_BACK = '\x1b[?2026l\x1b[?2004l\x1b[0m\x1b[?1049l\x1b[?25h';

/**
 * Takes the terminal: raw mode, alternate screen, no cursor, pastes marked. Keys are read here and nowhere else: the screen
 * library hands several keys over as one string and would lose all but one.
 *
 * Writing to a terminal is synchronous in Node on POSIX systems, so what `close` writes is out before the process ends.
 */
export function openTerminal({
  stdin,
  stdout,
  process: self = process,
}: {
  readonly stdin: NodeJS.ReadStream;
  readonly stdout: NodeJS.WriteStream;
  readonly process?: NodeJS.Process;
}): Terminal {
  const closers = new Set<() => void>();
  const resized = new Set<(size: Size) => void>();
  const gone = new Set<() => void>();
  const answered = new Set<(bytes: string) => void>();
  let state: 'open' | 'closed' = 'open';
  const size = (): Size => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 });
  const tellSize = (): void => {
    for (const fn of [...resized]) fn(size());
  };
  // Node tells of another number of cells, from the same signal and before this; of cells of another size nobody tells.
  let cells = size();
  const hearWindow = (): void => {
    const before = cells;
    cells = size();
    if (before.columns === cells.columns && before.rows === cells.rows) tellSize();
  };
  const tellGone = (): void => {
    for (const fn of [...gone]) fn();
  };
  const write = (text: string): void => {
    if (stdout.writable) stdout.write(text);
  };

  stdin.setRawMode(true);
  write(TAKE);
  stdout.on('resize', tellSize);
  self.on('SIGWINCH', hearWindow);
  // A closed terminal ends standard input or fails reading or writing (EIO); unheard, an error event would be a crash.
  stdin.on('end', tellGone).on('error', tellGone);
  stdout.on('error', tellGone);

  return {
    stdout,
    size,
    onResize: (fn) => listen(resized, fn),
    onKeys(fn, hearing) {
      const stop = readKeys(stdin, fn, hearing, (bytes) => {
        for (const each of [...answered]) each(bytes);
      });
      closers.add(stop);
      // Whatever had the terminal before may have left the input standing still.
      stdin.resume();
      return stop;
    },
    onAnswer: (fn) => listen(answered, fn),
    onGone: (fn) => listen(gone, fn),
    onClose: (fn) => listen(closers, fn),
    bell: () => write('\x07'),
    retake() {
      if (state === 'closed') return;
      // The shell that had the terminal in between set its own modes; only a change makes Node set raw mode again.
      stdin.setRawMode(false);
      stdin.setRawMode(true);
      write(TAKE);
      tellSize();
    },
    close() {
      if (state === 'closed') return;
      state = 'closed';
      for (const fn of [...closers].reverse()) tryTo(fn);
      stdout.off('resize', tellSize);
      self.off('SIGWINCH', hearWindow);
      stdin.off('end', tellGone);
      tryTo(() => write(GIVE_BACK));
      tryTo(() => stdin.setRawMode(false));
      stdin.pause();
    },
  };
}

function listen<Fn>(all: Set<Fn>, fn: Fn): () => void {
  all.add(fn);
  return () => void all.delete(fn);
}

/** Giving back goes on whatever fails on the way: the terminal may be gone. */
function tryTo(fn: () => void): void {
  try {
    fn();
  } catch {}
}

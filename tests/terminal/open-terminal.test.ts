import { EventEmitter } from 'node:events';
import { expect, test } from 'vitest';
import { openTerminal } from '../../src/terminal/open-terminal.ts';

/** Streams that note, in order, what is done to them. */
function streams(size: { readonly columns: number; readonly rows: number } = { columns: 100, rows: 40 }) {
  const done: string[] = [];
  const stdin = Object.assign(new EventEmitter(), {
    setRawMode: (mode: boolean) => done.push(`raw ${mode}`),
    pause: () => done.push('pause'),
  });
  const stdout = Object.assign(new EventEmitter(), {
    ...size,
    writable: true,
    write: (text: string) => done.push(text.replaceAll('\x1b[', ' ').trim()),
  });
  const process = new EventEmitter();
  const terminal = openTerminal({
    stdin: stdin as unknown as NodeJS.ReadStream,
    stdout: stdout as unknown as NodeJS.WriteStream,
    process: process as unknown as NodeJS.Process,
  });
  return { terminal, stdin, stdout, process, done };
}

test('the terminal is taken, and given back in the other order, once', () => {
  const { terminal, done } = streams();
  terminal.onClose(() => done.push('stop drawing'));
  terminal.onClose(() => {
    throw new Error('must not stop the others');
  });
  expect(done).toEqual(['raw true', '?1049h ?25l ?2004h 2J H']);
  terminal.close();
  terminal.close();
  expect(done.slice(2)).toEqual(['stop drawing', '?2026l ?2004l 0m ?1049l ?25h', 'raw false', 'pause']);
});

test('a terminal that does not know its size is 80 by 24', () => {
  expect(streams({ columns: 0, rows: 0 }).terminal.size()).toEqual({ columns: 80, rows: 24 });
  expect(streams().terminal.size()).toEqual({ columns: 100, rows: 40 });
});

test('a new size is told until nobody wants to know', () => {
  const { terminal, stdout } = streams();
  const told: number[] = [];
  const stop = terminal.onResize(({ columns }) => told.push(columns));
  stdout.columns = 60;
  stdout.emit('resize');
  stop();
  stdout.emit('resize');
  expect(told).toEqual([60]);
});

test('cells of another size are told of, although there are as many; another number of them only once', () => {
  const { terminal, stdout, process } = streams();
  const told: number[] = [];
  terminal.onResize(({ columns }) => told.push(columns));
  process.emit('SIGWINCH');
  expect(told).toEqual([100]);
  stdout.columns = 60;
  stdout.emit('resize');
  process.emit('SIGWINCH');
  expect(told).toEqual([100, 60]);
  process.emit('SIGWINCH');
  expect(told).toEqual([100, 60, 60]);
  terminal.close();
  process.emit('SIGWINCH');
  expect(told).toEqual([100, 60, 60]);
  expect(process.listenerCount('SIGWINCH')).toBe(0);
});

test.each([
  ['standard input ends', 'stdin', 'end'],
  ['reading fails', 'stdin', 'error'],
  ['writing fails', 'stdout', 'error'],
] as const)('the terminal is gone when %s', (_, stream, event) => {
  const at = streams();
  let gone = 0;
  at.terminal.onGone(() => {
    gone++;
  });
  at[stream].emit(event, new Error('EIO'));
  expect(gone).toBe(1);
});

test('an error after closing disturbs nobody', () => {
  const { terminal, stdin, stdout } = streams();
  terminal.close();
  expect(() => stdin.emit('error', new Error('EIO'))).not.toThrow();
  expect(() => stdout.emit('error', new Error('EIO'))).not.toThrow();
});

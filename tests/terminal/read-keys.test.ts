import { EventEmitter } from 'node:events';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Hearing } from '../../src/keys/bursts.ts';
import type { Key } from '../../src/keys/key.ts';
import { readKeys } from '../../src/terminal/read-keys.ts';

beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] }));
afterEach(() => void vi.useRealTimers());

function keyboard(hearing: () => Hearing = () => 'commands', onKey: (key: Key) => void = () => {}) {
  const source = new EventEmitter();
  const heard: string[] = [];
  const stop = readKeys(
    source,
    (key) => {
      heard.push('text' in key ? key.text : key.key === 'enter' && key.held === 'yes' ? 'held' : key.key);
      onKey(key);
    },
    hearing,
  );
  return {
    stop,
    heard: () => heard.join(' '),
    types(bytes: string | Buffer, pause = 0) {
      source.emit('data', Buffer.from(bytes));
      vi.advanceTimersByTime(pause);
    },
  };
}

test('a lone Escape comes after 50 ms, a lone command after 25', () => {
  const { types, heard } = keyboard();
  types('\x1b', 49);
  expect(heard()).toBe('');
  vi.advanceTimersByTime(1);
  expect(heard()).toBe('escape');
  types('h', 24);
  expect(heard()).toBe('escape');
  vi.advanceTimersByTime(1);
  expect(heard()).toBe('escape h');
});

test('a character cut in the middle of its bytes is one key', () => {
  const { types, heard } = keyboard();
  const bytes = Buffer.from('針');
  types(bytes.subarray(0, 1));
  types(bytes.subarray(1), 100);
  expect(heard()).toBe('針');
});

test('a scanner that sends its characters one by one is heard as one scan', () => {
  const { types, heard } = keyboard();
  for (const one of 'B-1041\r') types(one, 8);
  expect(heard()).toBe('B-1041');
});

test('leaning on Enter is one press', () => {
  const { types, heard } = keyboard();
  types('\r', 500);
  for (let times = 0; times < 20; times++) types('\r', 33);
  vi.advanceTimersByTime(1000);
  expect(heard()).toMatch(/^enter( held){20}$/);
});

test('what follows the key that opens a field is heard by the field, in order', () => {
  let hearing: Hearing = 'commands';
  const { types, heard } = keyboard(
    () => hearing,
    () => {
      hearing = 'text';
    },
  );
  types('n', 30);
  types('ok');
  expect(heard()).toBe('n o k');
});

test('nothing comes after the end', () => {
  const { types, heard, stop } = keyboard();
  types('h');
  stop();
  types('x', 1000);
  expect(heard()).toBe('');
  expect(vi.getTimerCount()).toBe(0);
});

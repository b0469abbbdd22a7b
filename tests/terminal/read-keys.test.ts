import { EventEmitter } from 'node:events';
import fc from 'fast-check';
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

test('what the terminal answers is no key, wherever it arrives and however it is cut', () => {
  const answers = [
    '\x1b_Gi=1;OK\x1b\\',
    '\x1b[6;18;9t',
    '\x1b[?1;0;16S',
    '\x1b]11;rgb:1010/1010/1414\x1b\\',
    '\x1b[?63;1;4c',
  ];
  const typed = ['3', '1', '2', '.', '5', '\r', 'h', '\x1b[A'];
  const random = fc.tuple(
    fc.array(fc.nat(typed.length), { minLength: 5, maxLength: 5 }),
    fc.array(fc.nat(80), { maxLength: 6 }),
  );
  fc.assert(
    fc.property(random, ([places, cuts]) => {
      const source = new EventEmitter();
      const heard: string[] = [];
      const told: string[] = [];
      const name = (key: Key): string => ('text' in key ? key.text : key.key);
      const stop = readKeys(
        source,
        (key) => heard.push(name(key)),
        () => 'text',
        (bytes) => told.push(bytes),
      );
      // An answer comes between two keys, never inside one: the terminal sends both.
      const bytes = typed.map((key, at) => answers.filter((_, which) => places[which] === at).join('') + key).join('');
      const ends = [...cuts.filter((at) => at < bytes.length).sort((a, b) => a - b), bytes.length];
      let from = 0;
      for (const end of ends) {
        source.emit('data', Buffer.from(bytes.slice(from, end)));
        from = end;
        vi.advanceTimersByTime(3);
      }
      vi.advanceTimersByTime(2000);
      stop();
      const plain: string[] = [];
      const alone = new EventEmitter();
      const stopAlone = readKeys(
        alone,
        (key) => plain.push(name(key)),
        () => 'text',
      );
      alone.emit('data', Buffer.from(typed.join('')));
      vi.advanceTimersByTime(2000);
      stopAlone();
      expect(heard).toEqual(plain);
      expect(told).toHaveLength(places.filter((at) => at < typed.length).length);
    }),
  );
});

test('nothing comes after the end', () => {
  const { types, heard, stop } = keyboard();
  types('h');
  stop();
  types('x', 1000);
  expect(heard()).toBe('');
  expect(vi.getTimerCount()).toBe(0);
});

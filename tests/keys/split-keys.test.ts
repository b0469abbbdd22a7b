import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Key } from '../../src/keys/key.ts';
import { afterQuiet, initialSplit, type SplitState, splitDeadline, splitKeys } from '../../src/keys/split-keys.ts';

/** The keys of chunks that come `pause` milliseconds apart, and of the quiet behind them. */
function split(chunks: readonly string[], pause = 5): readonly Key[] {
  let state: SplitState = initialSplit;
  const out: Key[] = [];
  let ms = 1000;
  for (const chunk of chunks) {
    const [next, keys] = splitKeys(state, chunk, ms);
    state = next;
    out.push(...keys);
    ms += pause;
  }
  return [...out, ...afterQuiet(state, ms + 5000)[1]];
}

/** One word a key: its name, or its text. */
const words = (...chunks: readonly string[]): string =>
  split(chunks)
    .map((key) => ('text' in key ? `${key.key === 'text' ? '' : `${key.key}:`}${key.text}` : key.key))
    .join(' ');

describe('keys by the terminals that send them', () => {
  test.each([
    ['letters', 'h', 'h'],
    ['Enter', '\r', 'enter'],
    ['Enter as a line feed', '\n', 'enter'],
    ['CR LF as one Enter', '\r\n', 'enter'],
    ['two Enters as CR LF', '\r\n\r\n', 'enter enter'],
    ['Backspace, both ways', '\x7f\b', 'backspace backspace'],
    ['Tab and back', '\t\x1b[Z', 'tab back-tab'],
    ['Ctrl-C and Ctrl-D', '\x03\x04', 'ctrl-c ctrl-d'],
    ['normal cursor keys', '\x1b[A\x1b[B\x1b[C\x1b[D', 'up down right left'],
    ['application cursor keys', '\x1bOA\x1bOB\x1bOC\x1bOD', 'up down right left'],
    ['cursor keys with Shift and Ctrl', '\x1b[1;2A\x1b[1;5B', 'up down'],
    ['Home and End of xterm', '\x1b[H\x1b[F', 'home end'],
    ['Home and End of the VT and rxvt', '\x1b[1~\x1b[4~\x1b[7~\x1b[8~\x1bOH\x1bOF', 'home end home end home end'],
    ['Insert, Delete and pages', '\x1b[2~\x1b[3~\x1b[5~\x1b[6~', 'insert delete page-up page-down'],
    ['function keys of xterm', '\x1bOP\x1bOQ\x1bOR\x1bOS\x1b[15~\x1b[24~', 'f1 f2 f3 f4 f5 f12'],
    ['function keys of the Linux console', '\x1b[[A\x1b[[E\x1b[17~', 'f1 f5 f6'],
    ['function keys of the VT', '\x1b[11~\x1b[14~', 'f1 f4'],
    ['the number pad in application mode', '\x1bOq\x1bOn\x1bOy\x1bOM', '1 . 9 enter'],
    ['keys sent by number', '\x1b[13;2u\x1b[27u', 'enter escape'],
    ['graphemes', 'e\u0301🪡👍🏽', 'e\u0301 🪡 👍🏽'],
  ])('%s', (_, bytes, expected) => expect(words(bytes)).toBe(expected));
});

describe('what nobody needs is swallowed whole', () => {
  test.each([
    ['focus', '\x1b[Ix\x1b[O'],
    ['mouse, new style', '\x1b[<0;12;7Mx\x1b[<0;12;7m'],
    ['mouse, old style', '\x1b[M !!x\x1b[M#!!'],
    ['a cursor position', '\x1b[12;40Rx\x1b[?1;2c'],
    ['a title and a colour', '\x1b]0;title\x07x\x1b]11;rgb:0/0/0\x1b\\'],
    ['a device string', '\x1bP1+r\x1b\\x\x1b_Gi=1;OK\x1b\\'],
    ['Alt with a letter', '\x1bqx\x1bé'],
    ['a sequence broken off', '\x1b[12\x00x\x1b[99'],
  ])('%s', (_, bytes) => expect(words(bytes)).toMatch(/^(unknown )+x( unknown)+$/));

  test('also when it is cut anywhere', () => {
    for (const bytes of ['\x1b[<0;12;7M', '\x1b[M !!', '\x1b]0;title\x07', '\x1bP1+r\x1b\\', '\x1b[1;5A', '\x1b[[A']) {
      for (let at = 1; at < bytes.length; at++) expect(words(bytes.slice(0, at), bytes.slice(at))).toBe(words(bytes));
    }
  });

  test('a key behind a broken sequence is still heard', () => {
    expect(words('\x1b[1\r')).toBe('unknown enter');
    expect(words('\x1b]0;never ended\x1b[A')).toBe('unknown up');
  });
});

describe('Escape', () => {
  const [waiting] = splitKeys(initialSplit, '\x1b', 100);

  test('is decided 50 ms after it came', () => {
    expect(splitDeadline(waiting)).toBe(150);
    expect(afterQuiet(waiting, 149)[1]).toEqual([]);
    expect(afterQuiet(waiting, 150)[1]).toEqual([{ key: 'escape' }]);
  });

  test('followed by something later than that is a key of its own', () => {
    expect(splitKeys(waiting, '[A', 150)[1].map((key) => key.key)).toEqual(['escape', 'text', 'text']);
    expect(splitKeys(waiting, '[A', 149)[1]).toEqual([{ key: 'up' }]);
  });

  test('twice is twice, and a control behind it is heard', () =>
    expect(words('\x1b\x1b\r')).toBe('escape escape enter'));

  test('a sequence that has begun waits longer than an Escape', () => {
    const [begun] = splitKeys(initialSplit, '\x1b[', 100);
    expect(splitKeys(begun, 'A', 299)[1]).toEqual([{ key: 'up' }]);
    expect(splitKeys(begun, 'A', 300)[1].map((key) => key.key)).toEqual(['unknown', 'text']);
  });
});

describe('a paste', () => {
  test('is one key, presses nothing, and keeps its lines', () => {
    expect(words('\x1b[200~one\r\ntwo\rthree\x1b[201~x')).toBe('paste:one\ntwo\nthree x');
  });

  test('comes without control functions', () => {
    expect(words('\x1b[200~\x1b[31mred\x1b[0m\x07 \u202Ebidi\x1b[201~')).toBe('paste:red bidi');
  });

  test('that is never ended does not swallow the session', () => {
    const [open, none] = splitKeys(initialSplit, '\x1b[200~half', 0);
    expect(none).toEqual([]);
    expect(splitKeys(open, '\r', 2000)[1]).toEqual([
      { key: 'paste', text: 'half' },
      { key: 'enter', held: 'no' },
    ]);
  });

  test('too large for any field is cut and still presses nothing', () => {
    const [key, ...others] = split(['\x1b[200~', ...Array<string>(100).fill('y\r'.repeat(5_000)), '\x1b[201~']);
    expect(others).toEqual([]);
    expect(key).toMatchObject({ key: 'paste' });
    expect(key?.key === 'paste' && key.text.length).toBe(262_144);
  });
});

test('a line feed long after Enter is an Enter', () => {
  const [state] = splitKeys(initialSplit, '\r', 0);
  expect(splitKeys(state, '\n', 49)[1]).toEqual([]);
  expect(splitKeys(state, '\n', 50)[1]).toEqual([{ key: 'enter', held: 'no' }]);
});

test('a hundred thousand characters, at once or one by one, are as many keys', () => {
  expect(split(['j'.repeat(100_000)])).toHaveLength(100_000);
  expect(split(Array<string>(100_000).fill('j'), 0)).toHaveLength(100_000);
  expect(split(['\x1b[200~', ...Array<string>(100_000).fill('j'), '\x1b[201~'], 0)).toEqual([
    { key: 'paste', text: 'j'.repeat(100_000) },
  ]);
});

test('however the chunks are cut, the keys are the same', () => {
  const token = fc.oneof(
    fc.constantFrom(
      ...[
        'a',
        'B',
        '1',
        '針',
        '🪡',
        'é',
        '\r',
        '\r\n',
        '\t',
        '\x7f',
        '\x03',
        '\x1b[A',
        '\x1bOB',
        '\x1b[1;5C',
        '\x1b[3~',
      ],
      ...[
        '\x1b[[C',
        '\x1b[15~',
        '\x1b[<0;1;1M',
        '\x1b[M !!',
        '\x1b[I',
        '\x1b]0;t\x07',
        '\x1bP1$r\x1b\\',
        '\x1bq',
        '\x1bOM',
      ],
      ...['\x1b[200~a\r\nb\x1b[Ac\x1b[201~', '\x1b[200~\x1b[20\x1b[201~', '\x1b\x1b[B', '\x1b\r'],
    ),
    fc.string({
      unit: fc.constantFrom('\x1b', '[', 'O', ']', '2', '0', '1', '~', ';', 'M', 'A', '\r', '\n', '\\', '\x07'),
      maxLength: 12,
    }),
  );
  const session = fc.tuple(fc.array(token, { maxLength: 12 }), fc.array(fc.nat(100), { maxLength: 12 }));
  fc.assert(
    fc.property(session, ([tokens, cuts]) => {
      const characters = Array.from(tokens.join(''));
      const edges = [...new Set(cuts.map((cut) => cut % (characters.length + 1)))].sort((a, b) => a - b);
      const chunks = [0, ...edges].map((from, index) => characters.slice(from, edges[index] ?? undefined).join(''));
      expect(split(chunks, 1)).toEqual(split([characters.join('')]));
    }),
    { numRuns: 20_000 },
  );
});

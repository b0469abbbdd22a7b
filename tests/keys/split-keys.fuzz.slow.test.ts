import { StringDecoder } from 'node:string_decoder';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { afterBurst, collect, type Hearing, initialBurst } from '../../src/keys/bursts.ts';
import type { Key } from '../../src/keys/key.ts';
import { afterQuiet, initialSplit, splitKeys } from '../../src/keys/split-keys.ts';

const numRuns = 100_000;
const piece = fc.oneof(
  fc
    .constantFrom(
      ...[
        'a',
        'B',
        '1',
        '針',
        '🪡',
        'é',
        'e\u0301',
        '\r',
        '\n',
        '\r\n',
        '\t',
        '\x7f',
        '\x03',
        '\x00',
        '\x1b',
        '\x9b',
        '\x9d',
      ],
      ...[
        '\x1b[A',
        '\x1bOB',
        '\x1b[1;5C',
        '\x1b[3~',
        '\x1b[[C',
        '\x1b[<0;1;1M',
        '\x1b[M !!',
        '\x1b]0;t\x07',
        '\x1bP1$r\x1b\\',
      ],
      ...[
        '\x1b[200~',
        '\x1b[201~',
        '\x1b[20',
        '\x1b[2',
        '1~',
        '\x1b_G',
        '\x1b\\',
        '\x18',
        '\x1b[13;2u',
        '\x1bq',
        'AB12\r',
      ],
    )
    .map((text) => Buffer.from(text)),
  fc.uint8Array({ maxLength: 6 }).map((bytes) => Buffer.from(bytes)),
);
const session = fc.tuple(
  fc.array(piece, { maxLength: 10 }),
  fc.array(fc.nat(80), { maxLength: 8 }),
  fc.constantFrom<Hearing>('text', 'commands'),
);

/** Bytes as they come in at one moment, cut so, to keys and to what a screen hears, and the long quiet behind them. */
function heard(
  chunks: readonly Uint8Array[],
  hearing: Hearing,
): { readonly keys: readonly Key[]; readonly out: readonly Key[] } {
  const decoder = new StringDecoder('utf8');
  let split = initialSplit;
  let burst = initialBurst;
  const keys: Key[] = [];
  const out: Key[] = [];
  const take = (found: readonly Key[], ms: number): void => {
    for (const key of found) {
      const [next, given] = collect(burst, key, ms, hearing);
      burst = next;
      keys.push(key);
      out.push(...given);
    }
  };
  for (const chunk of chunks) {
    const [next, found] = splitKeys(split, decoder.write(Buffer.from(chunk)), 1000);
    split = next;
    take(found, 1000);
  }
  take(afterQuiet(split, 9000)[1], 9000);
  return { keys, out: [...out, ...afterBurst(burst, 10_000)[1]] };
}

test('100,000 sessions give the same keys wherever their bytes are cut, and nothing to obey in their words', () => {
  fc.assert(
    fc.property(session, ([pieces, cuts, hearing]) => {
      const bytes = Buffer.concat(pieces);
      const edges = [...new Set(cuts.map((cut) => cut % (bytes.length + 1)))].sort((a, b) => a - b);
      const chunks = [0, ...edges].map((from, index) => bytes.subarray(from, edges[index] ?? undefined));
      const whole = heard([bytes], hearing);
      // An accent that comes late is a key of its own, and counts as one where a device is told from a person.
      const isPlain = whole.keys.every((key) => key.key !== 'text' || Array.from(key.text).length === 1);
      for (const cut of [chunks, Array.from(bytes, (byte) => Buffer.of(byte))]) {
        const { keys, out } = heard(cut, hearing);
        expect(letters(keys)).toEqual(letters(whole.keys));
        if (isPlain) expect(out).toEqual(whole.out);
      }
      for (const key of whole.out)
        if ('text' in key) expect(key.text).not.toMatch(key.key === 'paste' ? HIDDEN : CONTROLS);
    }),
    { numRuns },
  );
});

const CONTROLS = /[\x00-\x1f\x7f-\x9f]/;
/** A paste keeps its lines and tabs, and loses what would turn its words around. A keyboard may send anything that prints; fields show it as marks. */
const HIDDEN = /[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]/;

/** Text keys as single characters, so that it does not matter whether an accent came with its letter. */
const letters = (keys: readonly Key[]): readonly Key[] =>
  keys.flatMap((key) => (key.key === 'text' ? Array.from(key.text, (text): Key => ({ key: 'text', text })) : [key]));

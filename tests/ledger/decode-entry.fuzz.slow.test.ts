import fc from 'fast-check';
import { expect, it } from 'vitest';
import { entryKinds, readEntry } from '../../src/bundle/entries.ts';
import { canonicalText } from '../../src/ledger/canonical.ts';
import { decodeEntry } from '../../src/ledger/decode-entry.ts';
import type { Json } from '../../src/ledger/entry.ts';
import { goodBodies } from '../bundle/good-bodies.ts';

const bodies = Object.entries(goodBodies) as unknown as readonly (readonly [
  string,
  { readonly [member: string]: Json },
])[];
const line = (kind: string, body: Json): string =>
  canonicalText({ v: 1, station: 'table-1', seq: 3, at: '2026-11-25T10:42:07.120+01:00', hand: 'OP-02', kind, body });
const lines = bodies.map(([kind, body]) => line(kind, body));

const token = fc.constantFrom(
  ...[
    '{',
    '}',
    '[',
    ']',
    ':',
    ',',
    '"',
    '\\',
    '\\u0000',
    '\\ud800',
    '\ud800',
    'null',
    'true',
    '-0',
    '1e400',
    '1.0',
    ' ',
    '\n',
  ],
  ...[
    '"__proto__":{},',
    '"body":',
    '"seq":3',
    '"kind":"noted"',
    '"hand":1',
    '"set":0',
    '"nth":2.5',
    '"at":"2026-13-01T00:00:00Z"',
  ],
);
const json = fc.json({ maxDepth: 3 }).map((text) => JSON.parse(text) as Json);
/** What other members hold: the right shape in the wrong place. */
const values = bodies.flatMap(([, body]) => Object.values(body));
const anyLine = fc.oneof(
  {
    weight: 3,
    arbitrary: fc
      .tuple(
        fc.constantFrom(...lines),
        fc.nat(400),
        fc.nat(12),
        fc.oneof(token, fc.string({ unit: 'binary', maxLength: 6 })),
      )
      .map(([text, at, cut, put]) => text.slice(0, at) + put + text.slice(at + cut)),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(fc.constantFrom(...bodies), fc.nat(12), fc.oneof(json, fc.constantFrom(...values)))
      .map(([[kind, body], place, value]) => {
        const members = [...Object.keys(body), 'extra', 'clockBack'];
        return line(kind, { ...body, [members[place % members.length] ?? '']: value });
      }),
  },
  fc
    .tuple(fc.constantFrom(...entryKinds, 'toString', '__proto__', 'constructor'), json)
    .map(([kind, body]) => line(kind, body)),
  fc.array(token, { maxLength: 20 }).map((parts) => parts.join('')),
  fc.array(fc.nat(0xffff), { maxLength: 20 }).map((codes) => String.fromCharCode(...codes)),
);

it('in 100,000 lines never throws, and takes none but what is its own canonical form, with the body it says', () => {
  const taken = new Set<string>();
  fc.assert(
    fc.property(anyLine, (text) => {
      const entry = decodeEntry(text);
      if (!entry.ok) return;
      expect(canonicalText(entry.value as unknown as Json)).toBe(text);
      const read = readEntry(entry.value);
      if (!read.ok) return;
      taken.add(read.value.kind);
      expect(canonicalText(read.value.body as unknown as Json)).toBe(canonicalText(entry.value.body));
    }),
    { numRuns: 100_000 },
  );
  expect([...taken].sort(), 'kinds that were read to the end').toEqual([...entryKinds].sort());
});

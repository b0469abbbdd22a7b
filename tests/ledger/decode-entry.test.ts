import fc from 'fast-check';
import { expect, it } from 'vitest';
import { canonicalText } from '../../src/ledger/canonical.ts';
import { decodeEntry } from '../../src/ledger/decode-entry.ts';
import type { Json } from '../../src/ledger/entry.ts';

const line =
  '{"at":"2026-11-25T10:42:07.120+01:00","body":{"ticket":"B-1041"},"hand":"OP-02","kind":"opened","seq":3,"station":"table-1","v":1}';
const entry = JSON.parse(line);

/** The rule that refuses the text, or the entry that was read. */
const read = (text: string) => {
  const result = decodeEntry(text);
  return result.ok ? result.value : result.error.rule;
};

it('reads a line of the ledger', () => {
  expect(read(line)).toEqual(entry);
});

it('keeps a member of the body that JavaScript treats in its own way', () => {
  const text = line.replace('{"ticket"', '{"__proto__":{"a":1},"ticket"');
  const result = decodeEntry(text);
  expect(result.ok && canonicalText(result.value as unknown as Json)).toBe(text);
});

it.each<readonly [string, string, string]>([
  ['nothing', '', 'entry-json'],
  ['half a line', line.slice(0, 60), 'entry-json'],
  ['two lines', line + line, 'entry-json'],
  ['null', 'null', 'entry-shape'],
  ['a list', `[${line}]`, 'entry-shape'],
  ['a space more', line.replace(',"hand"', ', "hand"'), 'entry-canonical'],
  ['a line end', `${line}\n`, 'entry-canonical'],
  ['a byte order mark', `\ufeff${line}`, 'entry-json'],
  ['members in another order', JSON.stringify({ v: 1, ...entry }), 'entry-canonical'],
  ['a member twice', line.replace('"hand":"OP-02"', '"hand":"OP-03","hand":"OP-02"'), 'entry-canonical'],
  ['a letter written as an escape', line.replace('opened', '\\u006fpened'), 'entry-canonical'],
  ['a number written at length', line.replace('"seq":3', '"seq":3.0'), 'entry-canonical'],
  ['minus zero', line.replace('"seq":3', '"seq":-0'), 'entry-canonical'],
  ['an escaped lone surrogate', line.replace('B-1041', '\\ud800'), 'entry-canonical'],
  ['a raw lone surrogate', line.replace('B-1041', '\ud800'), 'entry-canonical'],
  ['a body nested without end', line.replace('"B-1041"', '['.repeat(200_000) + ']'.repeat(200_000)), 'entry-canonical'],
  ...Object.entries({
    'another version': { v: 2 },
    'a version in words': { v: '1' },
    'no station': { station: '' },
    'a negative place': { seq: -1 },
    'half a place': { seq: 1.5 },
    'a place beyond exact numbers': { seq: 2 ** 53 },
    'a stamp without offset': { at: '2026-11-25T10:42:07' },
    'a stamp of a thirteenth month': { at: '2026-13-25T10:42:07Z' },
    'a hand that is a number': { hand: 2 },
    'no kind': { kind: '' },
    'a body that is a list': { body: [] },
    'a body that is nothing': { body: null },
    'a member nobody knows': { extra: true },
  }).map(([name, change]) => [name, canonicalText({ ...entry, ...change }), 'entry-shape'] as const),
  ...Object.keys(entry).map((member) => {
    const { [member]: _, ...rest } = entry;
    return [`no ${member} at all`, canonicalText(rest), 'entry-shape'] as const;
  }),
])('refuses %s', (_, text, rule) => {
  expect(read(text)).toBe(rule);
});

it('never throws, whatever it is given', () => {
  const spliced = fc
    .tuple(fc.nat(line.length), fc.nat(8), fc.string({ unit: 'binary', maxLength: 8 }))
    .map(([at, cut, put]) => line.slice(0, at) + put + line.slice(at + cut));
  const unpaired = fc.array(fc.nat(0xffff)).map((codes) => String.fromCharCode(...codes));
  const anyText = fc.oneof(fc.string({ unit: 'binary' }), fc.json(), spliced, unpaired);
  fc.assert(
    fc.property(anyText, (text) => {
      const result = decodeEntry(text);
      if (result.ok) expect(canonicalText(result.value as unknown as Json)).toBe(text);
    }),
    { numRuns: 2_000 },
  );
});

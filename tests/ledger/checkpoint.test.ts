import fc from 'fast-check';
import { expect, it, test } from 'vitest';
import type { Digest } from '../../src/base/brand.ts';
import { openCheckpoint, readCheckpoint, signCheckpoint } from '../../src/ledger/checkpoint.ts';
import { leafDigest } from '../../src/ledger/leaf.ts';
import { readVerifierKey, verifierKeyText, verifierOf } from '../../src/ledger/note-key.ts';
import { openNote, signNote } from '../../src/ledger/signed-note.ts';
import { keyFromSeed } from './key-from-seed.ts';

const key = keyFromSeed('table-1', '01'.repeat(32));
const verifier = verifierOf(key);
const other = keyFromSeed('table-2', '02'.repeat(32));
const namesake = keyFromSeed('table-1', '03'.repeat(32));
const root = leafDigest('an entry');
const note = signCheckpoint({ size: 1, root }, key);
const [text = '', ours = ''] = note.split('\n\n').map((part) => `${part.replace(/\n$/, '')}\n`);
const signatureOf = (by: typeof key, of = text): string => signNote(of, by).slice(of.length + 1);

/** The rule that refuses the note, or what it says. */
const read = (changed: string) => {
  const opened = openCheckpoint(changed, verifier);
  return opened.ok ? opened.value : opened.error.rule;
};

it('opens what it signed, in every size and root', () => {
  fc.assert(
    fc.property(fc.maxSafeNat(), fc.uint8Array({ minLength: 32, maxLength: 32 }), (size, bytes) => {
      const state = { size, root: Buffer.from(bytes).toString('hex') as Digest };
      expect(read(signCheckpoint(state, key))).toEqual({ origin: 'table-1', ...state, extensions: [] });
    }),
  );
});

it('opens a checkpoint that others have signed too, and one with lines of theirs', () => {
  expect(read(`${text}\n${signatureOf(other)}${ours}${signatureOf(namesake)}`)).toMatchObject({ size: 1 });
  expect(read(signNote(`${text}a line\nand one more\n`, key))).toMatchObject({
    extensions: ['a line', 'and one more'],
  });
});

it.each([
  ['with another key', `${text}\n${signatureOf(other)}`, 'note-key'],
  ['with another key of that name', `${text}\n${signatureOf(namesake)}`, 'note-key'],
  ['twice, once wrongly', `${text}\n${ours}${signatureOf(key, `${text}more\n`)}`, 'note-signature'],
  ['for another ledger', signNote(text.replace('table-1', 'table-2'), key), 'checkpoint-origin'],
])('refuses a checkpoint signed %s', (_, changed, rule) => {
  expect(read(changed)).toBe(rule);
});

it.each([
  ['nothing', '', 'note-form'],
  ['the text without a signature', text, 'note-form'],
  ['the text and an empty line', `${text}\n`, 'note-form'],
  ['a note cut in its signature', note.slice(0, -9), 'note-form'],
  ['a note without its last line end', note.slice(0, -1), 'note-form'],
  ['a hyphen for the dash', note.replace('—', '-'), 'note-form'],
  ['a signature with a blank more', note.replace('— ', '—  '), 'note-form'],
  ['a signature with a word more', note.replace(/\n$/, ' more\n'), 'note-form'],
  ['base64 with stray bits', note.replace(/.(==?)?\n$/, (end) => `${end.slice(1, -1)}\n`), 'note-form'],
  ['a tab', note.replace('table-1', 'table\t1'), 'note-form'],
  ['a lone surrogate', note.replace('table-1', 'table\ud8001'), 'note-form'],
  ['line ends of another system', note.replaceAll('\n', '\r\n'), 'note-lines'],
  ['101 signatures', note + ours.repeat(100), 'note-signatures'],
  ['17 million letters', note + 'x'.repeat(17_000_000), 'note-long'],
  ['another size', note.replace('\n1\n', '\n2\n'), 'note-signature'],
])('refuses %s', (_, changed, rule) => {
  expect(changed).not.toBe(note);
  expect(read(changed)).toBe(rule);
});

it.each([
  ['two lines', text.split('\n').slice(0, 2).join('\n').concat('\n')],
  ['no name', text.replace('table-1', '')],
  ['a size with a zero before it', text.replace('\n1\n', '\n01\n')],
  ['a negative size', text.replace('\n1\n', '\n-1\n')],
  ['a size in words', text.replace('\n1\n', '\none\n')],
  ['a short root', text.replace(/\n[^\n]+\n$/, '\nAAAA\n')],
  ['a root without its padding', text.replace('=', '')],
  ['an empty line', `${text}\nmore\n`],
  ['no line end', text.trimEnd()],
])('refuses a text with %s, signed or not', (_, changed) => {
  expect(readCheckpoint(changed)).toMatchObject({ error: { rule: 'checkpoint-form' } });
});

it('refuses a size beyond exact numbers', () => {
  const huge = text.replace('\n1\n', `\n${2 ** 53}\n`);
  expect(readCheckpoint(huge)).toMatchObject({ error: { rule: 'checkpoint-size' } });
});

it('refuses the note when any one bit of it is another', () => {
  const bytes = Buffer.from(note);
  for (let bit = 0; bit < bytes.length * 8; bit++) {
    const changed = Buffer.from(bytes);
    changed[bit >> 3] = (changed[bit >> 3] ?? 0) ^ (1 << (bit & 7));
    expect(typeof read(changed.toString()), `bit ${bit}`).toBe('string');
  }
});

it('never throws, whatever it is given', () => {
  const spliced = fc
    .tuple(fc.nat(note.length), fc.nat(8), fc.string({ unit: 'binary', maxLength: 8 }))
    .map(([at, cut, put]) => note.slice(0, at) + put + note.slice(at + cut));
  fc.assert(
    fc.property(fc.oneof(spliced, fc.string({ unit: 'binary' })), (changed) => {
      const opened = openNote('The note', changed, verifier);
      if (opened.ok) expect(opened.value).toBe(text);
      readCheckpoint(changed);
      readVerifierKey(changed);
    }),
    { numRuns: 2_000 },
  );
});

test.each(['', 'no line end', 'a\ttab\n', 'a lone \ud800\n'])('what cannot be signed is a bug: %j', (wrong) => {
  expect(() => signNote(wrong, key)).toThrow();
});

test('a key under a name that notes cannot hold is a bug', () => {
  expect(() => verifierOf({ ...key, name: 'table 1' })).toThrow();
  expect(() => verifierOf({ ...key, name: 'table+1' })).toThrow();
});

const word = verifierKeyText(verifier);
test.each([
  ['half a key', word.slice(0, 30), 'key-form'],
  ['only a name', 'table-1', 'key-form'],
  ['another name', word.replace('table-1', 'table-2'), 'key-id'],
  ['another id', word.replace(/\+.{8}\+/, '+00000000+'), 'key-id'],
  ['another kind of key', word.replace('+AY', '+BY'), 'key-kind'],
  ['no padding', word.replace(/=*$/, '').slice(0, -1), 'key-form'],
])('refuses %s', (_, changed, rule) => {
  expect(changed).not.toBe(word);
  expect(readVerifierKey(changed)).toMatchObject({ error: { rule } });
});

test('a key reads as it was written, with the blanks that copying adds', () => {
  const again = readVerifierKey(` ${word}\n`);
  expect(again.ok && verifierKeyText(again.value)).toBe(word);
});

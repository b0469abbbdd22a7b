import { expect, test } from 'vitest';
import type { HandId } from '../../src/base/brand.ts';
import type { RecordedEntry } from '../../src/bundle/entries.ts';
import { meaningWords, signatureOf } from '../../src/reports/signature-of.ts';

const entry = (kind: string, body: object): RecordedEntry =>
  ({ seq: 3, at: '2026-11-25T08:00:00Z', hand: 'OP-02' as HandId, kind, body }) as RecordedEntry;

test.each([
  [entry('checked', {}), 'OP-02', 'done'],
  [entry('checked', { witness: 'V-01' }), 'V-01', 'witnessed'],
  [entry('checked', { witness: 'V-01', signed: true }), 'V-01', 'witnessed with PIN'],
  [entry('settled', { signed: true }), 'OP-02', 'settled with PIN'],
  [entry('released', {}), 'OP-02', 'released'],
  [entry('finished', {}), 'OP-02', 'done'],
])('%j is signed', (each, by, words) => {
  expect(signatureOf(each)?.by).toBe(by);
  expect(meaningWords(each)).toBe(words);
});

test('a note, a pause or a wrong PIN is no signature', () => {
  for (const kind of ['noted', 'paused', 'pin-failed', 'caution-read']) expect(signatureOf(entry(kind, {}))).toBeNull();
});

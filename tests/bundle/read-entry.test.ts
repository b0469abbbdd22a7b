import { expect, test } from 'vitest';
import { entryKinds, readEntry } from '../../src/bundle/entries.ts';
import { goodBodies } from './good-bodies.ts';

const read = (kind: string, body: unknown) =>
  readEntry({ seq: 7, at: '2026-11-25T08:00:00Z', hand: 'OP-02', kind, body });

test('there is a well-made body of each kind here', () => expect(Object.keys(goodBodies)).toEqual(entryKinds));

test.each(entryKinds)('%s is read as it was written', (kind) => {
  expect(read(kind, goodBodies[kind])).toEqual({
    ok: true,
    value: { seq: 7, at: '2026-11-25T08:00:00Z', hand: 'OP-02', kind, body: goodBodies[kind] },
  });
});

test.each(entryKinds)('%s with a member more, a member less or a member of another type is refused', (kind) => {
  const body = goodBodies[kind] ?? {};
  expect(read(kind, { ...body, extra: 1 })).toMatchObject({ error: { rule: 'entry-shape' } });
  for (const member of Object.keys(body)) {
    expect(read(kind, { ...body, [member]: { no: true } }), member).toMatchObject({ error: { rule: 'entry-shape' } });
    if (optional.has(member)) continue;
    const { [member]: _, ...less } = body as Record<string, unknown>;
    expect(read(kind, less), member).toMatchObject({ error: { rule: 'entry-shape' } });
  }
});

const optional = new Set([
  'badge',
  'changedFrom',
  'clockBack',
  'by',
  'witness',
  'signed',
  'after',
  'alone',
  'language',
  'sheet',
  'sheets',
  'author',
  'change',
  'of',
  'folded',
  'takes',
]);

test.each<[string, string, unknown]>([
  ['checked', 'digest', 'A'.repeat(64)],
  ['checked', 'digest', 'abc'],
  ['checked', 'set', 0],
  ['checked', 'set', 1.5],
  ['checked', 'place', 0],
  ['checked', 'verdict', 'good'],
  ['checked', 'clockBack', 0],
  ['checked', 'clockBack', -3],
  ['checked', 'ticket', ''],
  ['checked', 'witness', ''],
  ['checked', 'folded', false],
  ['struck', 'entry', -1],
  ['struck', 'reason', ''],
  ['enrolled', 'role', 'owner'],
  ['ticketed', 'sets', 0],
  ['ticketed', 'rolls', ['']],
  ['finished', 'good', -1],
  ['pin-set', 'n', 15],
  ['pin-set', 'n', 2 ** 18],
  ['pin-set', 'r', 17],
  ['pin-set', 'salt', 'ab'],
  ['pin-set', 'hash', '7305'],
  ['pin-set', 'signed', false],
  ['pin-failed', 'for', 'fun'],
  ['skilled', 'level', 5],
  ['skilled', 'level', 2.5],
  ['skilled', 'skill', ''],
  ['signed-on', 'after', 'lunch'],
  ['changes-read', 'change', 0],
  ['changes-read', 'of', 1],
  ['released', 'alone', false],
  ['settled', 'how', { as: 'forgive' }],
  ['settled', 'how', { as: 'scrap' }],
  ['settled', 'how', { as: 'scrap', set: 1, step: 'sew' }],
  ['settled', 'how', { as: 'concession', name: 'K-1', limit: 'one', expires: 'soon' }],
  ['settled', 'how', { as: 'recut', piece: 'C', newPiece: '', step: 'sew', again: [] }],
  ['settled', 'how', { as: 'rework', step: 'sew', again: [1] }],
])('%s whose %s is %j is refused', (kind, member, value) => {
  expect(read(kind, { ...goodBodies[kind], [member]: value })).toMatchObject({
    error: { rule: 'entry-shape', message: expect.stringContaining(member) },
  });
});

test.each([null, undefined, 'text', 3, []])('a body that is %j is refused', (body) => {
  expect(read('paused', body)).toMatchObject({ ok: false, error: { rule: 'entry-shape' } });
});

test.each(['unknown', 'toString', '__proto__', ''])('the kind %j is refused', (kind) => {
  expect(read(kind, {})).toMatchObject({ error: { rule: 'entry-kind-unknown' } });
});

import { expect, test } from 'vitest';
import { entryKinds, readEntry } from '../../src/bundle/entries.ts';

const D = 'a'.repeat(64);
const ticket = 'B-1041';
const within = { ticket, nth: 3 };
const at = { ...within, set: 1, step: 'sew' };

/** One well-made body of each kind. */
const good: Readonly<Record<string, object>> = {
  enrolled: { hand: 'OP-02', name: 'Ines', role: 'sewer', badge: 'B2' },
  keyed: { key: 'SEW-1+0123abcd+AbCd', signed: true },
  retired: { hand: 'OP-02', signed: true },
  'pin-set': { hand: 'V-01', salt: 'ab'.repeat(16), hash: 'cd'.repeat(32), n: 16, r: 8, p: 1, signed: true },
  'pin-failed': { hand: 'V-01', for: 'settled' },
  'pin-proven': { hand: 'V-01' },
  skilled: { hand: 'OP-02', skill: 'top-stitch vinyl', level: 3, signed: true },
  released: {
    procedure: 'LIN',
    revision: 'A',
    digest: D,
    understood: D,
    title: 'Lining',
    pictures: [{ address: 'a.svg', digest: D }],
  },
  withdrawn: { procedure: 'LIN', revision: 'A', reason: 'wrong' },
  ticketed: { ticket, procedure: 'LIN', sets: 2, rolls: ['R-318'] },
  'signed-on': { role: 'sewer', after: 'lock' },
  opened: { ...within, procedure: 'LIN', revision: 'A', digest: D, understood: D, changedFrom: D },
  'caution-read': { ...at, caution: 1, digest: D },
  helped: { ...at, by: 'OP-03' },
  'changes-read': { ...within, procedure: 'LIN', from: D, to: D },
  'clock-started': { ...at, point: 'flash', digest: D },
  checked: {
    ...at,
    point: 'line',
    place: 1,
    typed: '',
    value: '312',
    unit: 'mm',
    limit: null,
    verdict: 'within',
    digest: D,
    clockBack: 1.5,
  },
  struck: { ...within, entry: 4, reason: 'wrong key' },
  'sent-back': { ...within, set: null, step: 'sew', again: ['sew'], reason: 'off' },
  held: { ...within, hold: 'H-001', set: 1, step: null, point: null, place: null, reason: 'a hole' },
  settled: { ...within, hold: 'H-001', set: 1, how: { as: 'scrap', set: 1 }, reason: 'torn' },
  'handed-over': { ...within, to: 'OP-03' },
  paused: { ...within },
  resumed: { ...within, procedure: 'LIN', digest: D },
  finished: { ...within, sets: 2, good: 2, conceded: 0, scrapped: 0, held: 0 },
  noted: { ...within, set: null, step: null, text: 'damp' },
  'gauge-checked': { gauge: 'tape 1', reading: '100 mm', fit: 'fit' },
};

const read = (kind: string, body: unknown) =>
  readEntry({ seq: 7, at: '2026-11-25T08:00:00Z', hand: 'OP-02', kind, body });

test('there is a well-made body of each kind here', () => expect(Object.keys(good)).toEqual(entryKinds));

test.each(entryKinds)('%s is read as it was written', (kind) => {
  expect(read(kind, good[kind])).toEqual({
    ok: true,
    value: { seq: 7, at: '2026-11-25T08:00:00Z', hand: 'OP-02', kind, body: good[kind] },
  });
});

test.each(entryKinds)('%s with a member more, a member less or a member of another type is refused', (kind) => {
  const body = good[kind] ?? {};
  expect(read(kind, { ...body, extra: 1 })).toMatchObject({ error: { rule: 'entry-shape' } });
  for (const member of Object.keys(body)) {
    expect(read(kind, { ...body, [member]: { no: true } }), member).toMatchObject({ error: { rule: 'entry-shape' } });
    if (optional.has(member)) continue;
    const { [member]: _, ...less } = body as Record<string, unknown>;
    expect(read(kind, less), member).toMatchObject({ error: { rule: 'entry-shape' } });
  }
});

const optional = new Set(['badge', 'changedFrom', 'clockBack', 'by', 'witness', 'signed', 'after']);

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
  ['settled', 'how', { as: 'forgive' }],
  ['settled', 'how', { as: 'scrap' }],
  ['settled', 'how', { as: 'scrap', set: 1, step: 'sew' }],
  ['settled', 'how', { as: 'concession', name: 'K-1', limit: 'one', expires: 'soon' }],
  ['settled', 'how', { as: 'recut', piece: 'C', newPiece: '', step: 'sew', again: [] }],
  ['settled', 'how', { as: 'rework', step: 'sew', again: [1] }],
])('%s whose %s is %j is refused', (kind, member, value) => {
  expect(read(kind, { ...good[kind], [member]: value })).toMatchObject({
    error: { rule: 'entry-shape', message: expect.stringContaining(member) },
  });
});

test.each([null, undefined, 'text', 3, []])('a body that is %j is refused', (body) => {
  expect(read('paused', body)).toMatchObject({ ok: false, error: { rule: 'entry-shape' } });
});

test.each(['unknown', 'toString', '__proto__', ''])('the kind %j is refused', (kind) => {
  expect(read(kind, {})).toMatchObject({ error: { rule: 'entry-kind-unknown' } });
});

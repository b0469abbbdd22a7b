const D = 'a'.repeat(64);
const ticket = 'B-1041';
const within = { ticket, nth: 3 };
const at = { ...within, set: 1, step: 'sew' };

/** One well-made body of each kind of entry. */
export const goodBodies: Readonly<Record<string, object>> = {
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
  printed: { ...within, what: 'label', copy: 1, digest: D, signed: true },
  noted: { ...within, set: null, step: null, text: 'damp' },
  'gauge-checked': { gauge: 'tape 1', reading: '100 mm', fit: 'fit' },
};

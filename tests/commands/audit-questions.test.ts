import { cpSync, mkdtempSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { who } from '../../src/commands/who.ts';
import type { StepPart } from '../../src/reports/step-text.ts';
import type { WhoRow } from '../../src/reports/who.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { callDemo, called, instant, readRoom } from './demo-room.ts';

const home = mkdtempSync(join(realpathSync(tmpdir()), 'walkfoot-audit-'));
const folder = join(home, 'practice-room');

beforeAll(async () => {
  expect(await callDemo(home, undefined)).toMatchObject({ code: 0, err: '' });
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

type Options = Parameters<typeof who>[1];

async function asked(ticket: string | undefined, options: Options, now?: string): Promise<string> {
  const answer = await called(
    (io) => who(ticket, { room: folder, ...options }, io),
    home,
    ...(now === undefined ? [] : [instant(now)]),
  );
  expect(answer).toMatchObject({ code: 0, err: '' });
  return answer.out;
}

const rows = async (ticket: string | undefined, options: Options, now?: string): Promise<readonly WhoRow[]> =>
  JSON.parse(await asked(ticket, { ...options, json: true }, now)) as readonly WhoRow[];

const once = <T>(all: readonly T[]): readonly T[] => [...new Set(all)];

describe('the questions of an audit, each with its one right answer', () => {
  test('who signed the recut of C in B-1042', async () => {
    const settled = (await rows('B-1042', {})).filter(({ kind }) => kind === 'settled');
    expect(settled).toMatchObject([
      { hand: 'V-01', name: 'Vera', step: 4, value: expect.stringContaining('C recut as C-R1 from R-318') },
    ]);
    // The cut panel took 25 minutes and the settling 5: all of it was waiting.
    const held = (await rows('B-1042', { step: '4' })).find(({ kind }) => kind === 'held');
    const waited = (await rows('B-1042', {})).reduce((sum, row) => sum + (row.waited ?? 0), 0);
    expect(held?.waited).toBe(0);
    expect(waited).toBeCloseTo((25 + 5) * 60 + 30, 3);
  });

  test('which bundles used roll R-318', async () => {
    const found = await rows(undefined, { roll: 'r-318' });
    expect(once(found.map(({ ticket }) => ticket)).toSorted()).toEqual(['B-1041', 'B-1042']);
    expect(once(found.map(({ kind }) => kind)).toSorted()).toEqual(['checked', 'settled', 'ticketed']);
    expect(once((await rows(undefined, { roll: 'W-079' })).map(({ ticket }) => ticket))).toEqual(['B-1045']);
  });

  test('which step readings of B-1044 were repeated, and what they said before', async () => {
    const found = await rows('B-1044', { repeated: true });
    expect(once(found.map(({ step, set }) => `step ${step} of set ${set}`))).toEqual(['step 9 of set 1']);
    const all = await rows('B-1044', {});
    const said = found.map(({ point, place, before }) => ({ point, place, before: before?.replace(/ \(.*/, '') }));
    const first = all.filter(({ again, step, kind }) => again && step === 9 && kind === 'checked');
    expect(said).toEqual(
      first.map(({ point, place, value, unit }) => ({ point, place, before: unit ? `${value} ${unit}` : value })),
    );
    expect(found.filter(({ unit }) => unit === 'mm')).toHaveLength(7);
    expect(found[0]?.before).toMatch(/^full \(entry \d+, Maj; the work went back\)$/);
  });

  test('who let K-017 through, and until when', async () => {
    const found = await rows(undefined, { concessions: true });
    expect(found).toMatchObject([
      {
        ticket: 'B-1046',
        set: 2,
        name: 'Henk',
        value: expect.stringContaining('K-017'),
        limit: '1 panel, display only',
        expires: '2026-12-31',
        verdict: 'in force',
      },
    ]);
    const after = await rows(undefined, { concessions: true }, '2027-01-01T00:00:00+01:00');
    expect(after.map(({ verdict }) => verdict)).toEqual(['expired']);
  });

  test('which people passed the top-stitch of vinyl on revision C', async () => {
    const onC = { procedure: 'LIN-2207', revision: 'C' };
    const found = await rows(undefined, { ...onC, skill: 'Top-stitch vinyl' });
    expect(once(found.map(({ name }) => name))).toEqual(['Tomas']);
    expect(found.map(({ ticket, set, verdict }) => [ticket, set, verdict])).toEqual([
      ['B-1042', 1, 'passed'],
      ['B-1042', 2, 'passed'],
    ]);
    expect(await rows(undefined, { ...onC, step: '9' })).toEqual(found);
    expect(await rows(undefined, { procedure: 'LIN-2207', revision: 'B', skill: 'top-stitch vinyl' })).toEqual([]);
  });

  test('what step 9 said on the day B-1041 was sewn, whatever the file says today', async () => {
    const file = join(folder, 'procedures/LIN-2207.md');
    const text = readFileSync(file, 'utf8');
    try {
      writeFileSync(file, text.replaceAll('Never change the bobbin', 'Always change the bobbin'));
      const said = await asked('B-1041', { step: '9', text: true });
      expect(said).toMatch(/^B-1041 · LIN-2207 revision C · opened 2026-11-24T14:16:20/);
      for (const words of [
        '9 Top-stitch the joins',
        'Seams: T1 T2 T3 T4, stitch 301 at 5.0 mm, visible',
        'WARNING: Bobbin.',
        'Never change the bobbin inside a row.',
        '- reading: M6: T1 from the seam, three places (3 places, 2.5 to 3.5 mm)',
        '- hold point: first row looked over',
      ])
        expect(said).toContain(words);
      const before = await asked('B-1043', { step: '9', text: true });
      expect(before).not.toContain('Never change the bobbin');
      expect(before).toContain('(3 places, 2 to 4 mm)');
    } finally {
      writeFileSync(file, text);
    }
  });
});

test('which bundles were sewn on a revision', async () => {
  const on = async (revision?: string) =>
    (await rows(undefined, { procedure: 'lin-2207', ...(revision ? { revision } : {}) })).map(
      ({ ticket, revision: on }) => `${ticket} ${on}`,
    );
  expect(await on('C')).toEqual(['B-1042 C', 'B-1041 C']);
  expect(await on('b')).toEqual(['B-1043 B']);
  expect(await on('A')).toEqual([]);
  expect(await on()).toEqual(['B-1043 B', 'B-1042 C', 'B-1041 C']);
});

test('which holds are open, alone and beside the concessions', async () => {
  const holds = await rows(undefined, { holds: true });
  expect(holds.map(({ ticket, kind, value }) => [ticket, kind, value?.slice(0, 5)])).toEqual([
    ['B-1043', 'held', 'H-030'],
    ['B-1045', 'held', 'H-032'],
  ]);
  const both = await rows(undefined, { holds: true, concessions: true });
  expect(both.map(({ ticket }) => ticket)).toEqual(['B-1046', 'B-1043', 'B-1045']);
  expect(await rows('B-1042', { holds: true })).toEqual([]);
});

test('everything a hand did between two days, and looked at as the second person, and no more', async () => {
  const found = await rows(undefined, { hand: 'Henk', since: '2026-11-19', until: '2026-11-20' });
  expect(found.filter(({ name }) => name === 'Henk').map(({ kind, ticket }) => [kind, ticket])).toEqual([
    ['settled', 'B-1046'],
  ]);
  const looked = found.filter(({ witness }) => witness === 'Henk');
  expect(once(looked.map(({ ticket }) => ticket))).toEqual(['B-1042']);
  expect(once(looked.map(({ point }) => point))).toEqual([
    'offcut test seen by a second person',
    'drawn lines seen by a second person',
    'first row looked over',
  ]);
  expect(found).toHaveLength(looked.length + 1);
});

test('times are as they were written, or in UTC when that is asked; days stay those of the station', async () => {
  const options = { hand: 'Henk', since: '2026-11-19', until: '2026-11-19' };
  const [local] = await rows(undefined, options);
  const [utc] = await rows(undefined, { ...options, utc: true });
  expect(local?.at).toMatch(/^2026-11-19T.*\+01:00$/);
  expect(utc?.at).toMatch(/^2026-11-19T.*Z$/);
  expect(Date.parse(`${utc?.at}`)).toBe(Date.parse(`${local?.at}`));
  expect(utc).toEqual({ ...local, at: utc?.at });
});

test('a power cut, a shift’s end and a ticket that nobody opened yet are no work', async () => {
  const found = await rows('B-1041', {});
  const lay = found.filter((row) => row.lay).map(({ kind, lay }) => [kind, Math.round((lay ?? 0) / 60)]);
  expect(lay).toEqual([
    ['opened', 0],
    ['resumed', 22],
  ]);
  expect(found.every(({ took, lay }) => !took || !lay)).toBe(true);
});

test('what a step said is there for programs and spreadsheets, too', async () => {
  const said = JSON.parse(await asked('B-1041', { step: '9', text: true, json: true })) as {
    readonly revision: string;
    readonly step: { readonly title: string };
    readonly parts: readonly StepPart[];
  };
  expect(said).toMatchObject({ ticket: 'B-1041', revision: 'C', step: { title: 'Top-stitch the joins' } });
  expect(once(said.parts.map(({ part }) => part))).toEqual(['title', 'fact', 'caution', 'picture', 'text', 'point']);
  const csv = await asked('B-1041', { step: '9', text: true, csv: true });
  expect(csv).toContain('\r\npoint,reading,"M6: T1 from the seam, three places",mm,2.5 to 3.5,3\r\n');
});

const COLUMNS = [
  ...['ticket', 'set', 'step', 'point', 'hand', 'at', 'took', 'value', 'unit', 'limit', 'verdict', 'revision', 'seq'],
];

test('every entry of a bundle is a row, in its order, in all three forms', async () => {
  const open = await readRoom(folder);
  try {
    const own = open.entries.flatMap(({ seq, body }) => ('ticket' in body && body.ticket === 'B-1042' ? [seq] : []));
    expect(own.length).toBeGreaterThan(200);
    expect((await rows('B-1042', {})).map(({ seq }) => seq)).toEqual(own);
    const csv = (await asked('B-1042', { csv: true })).trimEnd().split('\r\n');
    expect(csv).toHaveLength(own.length + 1);
    const [names = '', , ...lines] = (await asked('B-1042', {})).trimEnd().split('\n');
    const place = names.indexOf('seq');
    expect(lines.map((line) => Number(line.slice(place, place + 'seq'.length)))).toEqual(own);
  } finally {
    await open.close();
  }
});

test('the table and the spreadsheet begin with the same columns', async () => {
  const table = (await asked('B-1042', { step: '4' })).split('\n')[0]?.trim().split(/\s+/);
  expect(table).toEqual([...COLUMNS, 'also']);
  const csv = (await asked('B-1042', { csv: true })).split('\r\n');
  expect(csv[0]?.split(',').slice(0, COLUMNS.length)).toEqual(COLUMNS);
  expect(csv.filter((line) => line.startsWith('B-1042,1,4,M2b: seam on C to its front edge,OP-03,'))).toContainEqual(
    expect.stringMatching(/\+01:00,[\d.]+,316,mm,310\.5 to 313\.5 mm,above,C,\d+,checked,/),
  );
});

test('one bundle is answered for from its own entries, whatever else cannot be read', async () => {
  const copy = join(home, 'later');
  cpSync(folder, copy, { recursive: true });
  const store = openLedger(join(copy, '.walkfoot/ledger.db'), { station: 'SEW-1' });
  const at = '2026-11-25T08:00:00.000+01:00';
  await store.append(await store.head(), [{ at, hand: 'OP-02', kind: 'from-later', body: { ticket: 'B-1041' } }]);
  await store.close();
  expect(await rows('B-1042', { room: copy })).toEqual(await rows('B-1042', {}));
  await expect(asked('B-1041', { room: copy })).rejects.toThrow('use a newer version');
});

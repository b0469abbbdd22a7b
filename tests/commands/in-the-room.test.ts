import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Digest } from '../../src/base/brand.ts';
import { openLedger } from '../../src/storage/sqlite-ledger.ts';
import { practiceRoom, program, quietEnv, verasPin, type WhoRow } from '../playthrough/lining.ts';

let room: ReturnType<typeof practiceRoom>;
beforeAll(() => {
  room = practiceRoom();
});
afterAll(() => room.remove());

/** Without other input there is the PIN of Vera, for what she signs. */
function walkfoot(args: readonly string[], input = `${verasPin}\n`): string {
  const { stdout, stderr, status } = spawnSync(process.execPath, [program, ...args, '--room', room.folder], {
    env: quietEnv(),
    encoding: 'utf8',
    input,
  });
  if (status !== 0) throw new Error(`${args.join(' ')} ended with ${status}: ${stderr}`);
  return stdout;
}
const json = <T>(...args: readonly string[]): T => JSON.parse(walkfoot([...args, '--json'])) as T;
const rows = (...args: readonly string[]): readonly WhoRow[] => json('who', ...args);
const ledger = () => openLedger(join(room.folder, '.walkfoot/ledger.db'), { station: 'SEW-1' });

describe('who', () => {
  test('one step of a bundle: what was done in it, and nothing else', () => {
    const all = rows('B-1042');
    const step = rows('B-1042', '--step', '4');
    expect(step).toEqual(all.filter((row) => row.step === 4));
    expect(step.length).toBeGreaterThan(10);
  });

  test('one hand, whatever the bundle', () => {
    const all = rows();
    expect(rows('--hand', 'Tomas')).toEqual(all.filter(({ name }) => name === 'Tomas'));
    expect(rows('--hand', 'op-03')).toEqual(rows('--hand', 'Tomas'));
  });

  test('from a day to a day, both with all their hours; from a moment to a moment, both included', () => {
    const all = rows();
    const days = [...new Set(all.map(({ at }) => at.slice(0, 10)))];
    const [first = '', second = ''] = days.slice(1);
    const between = rows('--since', first, '--until', second);
    expect(between).toEqual(all.filter(({ at }) => at.slice(0, 10) >= first && at.slice(0, 10) <= second));
    const one = between[5]?.at ?? '';
    expect(rows('--since', one, '--until', one).map(({ at }) => at)).toContain(one);
    expect(rows('--since', one)).toEqual(all.slice(all.findIndex(({ at }) => at >= one)));
  });

  test('for a spreadsheet: every row whole, and nothing it would run', () => {
    walkfoot(['hand', 'add', '=2+3', '--hand', 'Vera']);
    walkfoot(['ticket', 'CUS-0412', '--name', 'B-77', '--hand', '=2+3', '--roll', 'a "b", c']);
    const csv = walkfoot(['who', 'B-77', '--csv']);
    expect(csv.endsWith('\r\n')).toBe(true);
    expect(csv).toContain(",'=2+3,");
    expect(csv).toContain('"CUS-0412, 4 sets, rolls a ""b"", c"');
  });
});

describe('tickets and hands', () => {
  test('a ticket takes the next number and the sets of its procedure', () => {
    const made = json<{ ticket: string; sets: number }>('ticket', 'lin-2207');
    const next = json<{ ticket: string; sets: number }>('ticket', 'HOD-0931', '--sets', '1');
    expect(made).toMatchObject({ ticket: 'B-1049', sets: 2 });
    expect(next).toMatchObject({ ticket: 'B-1050', sets: 1 });
  });

  test('a hand takes the next id of the role', () => {
    expect(walkfoot(['hand', 'add', 'Oda', '--role', 'supervisor', '--hand', 'Vera'])).toBe(
      'Oda is V-03, supervisor.\nLet Oda choose a PIN before anybody else does: walkfoot hand pin V-03\n',
    );
    walkfoot(['hand', 'retire', 'Oda', '--hand', 'Vera']);
    expect(
      json<readonly { id: string; retired: boolean }[]>('hand', 'list').find(({ id }) => id === 'V-03')?.retired,
    ).toBe(true);
  });
});

test('a rehearsal says so from the first line to the last, and leaves the ledger as it was', async () => {
  const before = readFileSync(join(room.folder, '.walkfoot/ledger.db'));
  const draft = join(room.folder, 'procedures/short.md');
  writeFileSync(
    draft,
    '---\nprocedure: S-1\ntitle: Short\n---\n\n## Only step\n\n- [ ] Done\n- [ ] **Hold point** seen\n',
  );
  const said = walkfoot(['rehearse', draft], '\nsupervisor\n1\n\n');
  expect(said.startsWith('REHEARSAL: nothing is recorded.')).toBe(true);
  expect(said).toContain('It was a rehearsal: nothing is recorded.');
  expect(said).not.toContain('in the ledger');
  expect(readFileSync(join(room.folder, '.walkfoot/ledger.db')).equals(before)).toBe(true);
});

test.each(['', '- Needs skill: binding\n\n'])('a rehearsal shows what an expert may fold away, too (%j)', (skill) => {
  const draft = join(room.folder, 'procedures/fold.md');
  writeFileSync(
    draft,
    `---\nprocedure: S-2\ntitle: Short\n---\n\n## Only step\n\n${skill}Wide side up.\n\n- [ ] Done\n- [ ] Seen\n`,
  );
  const [, folded = ''] = walkfoot(['rehearse', draft], 'fold\n').split('(enter: done) > ');
  expect(folded).toContain('Do all of this, then confirm each point.\n  - Done\n  - Seen\n');
  rmSync(draft);
});

test('a release keeps the text, its pictures and how it was understood, and the old revision stays as it was', async () => {
  const file = join(room.folder, 'procedures/LIN-2207.md');
  const old = readFileSync(file, 'utf8');
  for (const path of [file, join(room.folder, 'procedures/LIN-2207.es.md')])
    writeFileSync(path, readFileSync(path, 'utf8').replace('(27 +2/-0)', '(27 +1.5/-0)'));
  const { revision, digest } = json<{ revision: string; digest: Digest }>(
    'release',
    'LIN-2207',
    '--open-bundles',
    'finish',
    '--hand',
    'Vera',
  );
  expect(revision).toBe('D');
  const store = ledger();
  try {
    const releases = (await store.read({ kinds: ['released'] })).map(({ entry }) => entry.body as never as Released);
    const mine = releases.filter(({ procedure }) => procedure === 'LIN-2207');
    expect(mine.map((each) => each.revision)).toEqual(['A', 'B', 'C', 'D']);
    for (const { digest: text, understood, pictures } of mine)
      for (const each of [text, understood, ...pictures.map((picture) => picture.digest)])
        expect(await store.kept(each)).toBeDefined();
    expect(new TextDecoder().decode((await store.kept(digest))?.bytes)).toContain('(27 +1.5/-0)');
    expect(new TextDecoder().decode((await store.kept(mine[2]?.digest ?? digest))?.bytes)).toBe(old);
  } finally {
    await store.close();
  }
});

interface Released {
  readonly procedure: string;
  readonly revision: string;
  readonly digest: Digest;
  readonly understood: Digest;
  readonly pictures: readonly { readonly digest: Digest }[];
}

test('proofreading misses a picture where its address stands; the release refuses it in the same words', () => {
  writeFileSync(
    join(room.folder, 'procedures/pictured.md'),
    '---\nprocedure: P-1\ntitle: Pictured\n---\n\n## Look at the panel\n\n![Panel](../media/none.svg)\n\n- [ ] Done\n',
  );
  const { stdout, status } = spawnSync(
    process.execPath,
    [program, 'proofread', 'P-1', '--json', '--room', room.folder],
    {
      env: quietEnv(),
      encoding: 'utf8',
    },
  );
  expect(status).toBe(1);
  expect(JSON.parse(stdout)).toMatchObject([
    { line: 8, column: 10, rule: 'picture-missing', found: '../media/none.svg' },
  ]);
});

test.each([
  ['two tickets', ['who', 'B-1041', 'B-1042']],
  ['two forms', ['who', 'B-1041', '--json', '--csv']],
  ['an end before the beginning', ['who', '--since', '2026-11-25', '--until', '2026-11-01']],
])('a question that is none is refused: %s', (_, args) => {
  const asked = spawnSync(process.execPath, [program, ...args, '--room', room.folder], {
    env: quietEnv(),
    encoding: 'utf8',
  });
  expect(asked).toMatchObject({ status: 2, stdout: '' });
});

import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { HandId, ProcedureId } from '../../src/base/brand.ts';
import { parseStamp } from '../../src/base/instant.ts';
import { allChecks, isGood } from '../../src/bundle/bundle.ts';
import { whyNotFolded } from '../../src/bundle/folding.ts';
import { next, wantedPoint } from '../../src/bundle/next.ts';
import { ines, piet } from '../../src/commands/demo/hands.ts';
import { pastRevisions } from '../../src/commands/demo/past-revisions.ts';
import { who } from '../../src/commands/who.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { callDemo, called, instant, type ReadRoom, readRoom, valuesOf } from './demo-room.ts';

const home = mkdtempSync(join(realpathSync(tmpdir()), 'walkfoot-demo-'));
const folder = join(home, 'practice-room');
let printed = '';
let room: ReadRoom;

beforeAll(async () => {
  const { code, out, err } = await callDemo(home, undefined);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  printed = out;
  room = await readRoom(folder);
});

afterAll(async () => {
  await room?.close();
  rmSync(home, { recursive: true, force: true });
});

/** Where the work stands. */
async function stands(ticket: string) {
  const { work, holds } = await room.bundle(ticket);
  const wanted = wantedPoint(await room.text(ticket), await room.bundle(ticket));
  return {
    work,
    step: wanted?.at.step.number,
    set: wanted?.at.set,
    holds: holds.map(({ name, settled }) => `${name} ${settled?.how.as ?? 'open'}`),
  };
}

test('who can teach finds a step to fold before any that has a caution, and who was judged by nobody finds none', async () => {
  const { steps } = await room.text('B-1048');
  const folds = (who: HandId) => steps.filter((step) => whyNotFolded(room.ledger.room(), who, step) === null);
  expect(folds(ines).map(({ number }) => number)).toEqual([1, 2, 15]);
  expect(folds(piet)).toEqual([]);
});

describe('the stories', () => {
  test('B-1041 is left before the top-stitch of its first set, and Ines can go on', async () => {
    expect(await stands('B-1041')).toEqual({ work: 'paused', step: 9, set: 1, holds: [] });
    const kinds = room.entries.flatMap(({ kind, body }) =>
      'ticket' in body && body.ticket === 'B-1041' ? [kind] : [],
    );
    expect(kinds.indexOf('resumed')).toBeLessThan(kinds.indexOf('paused'));
    expect(kinds.filter((kind) => kind === 'paused' || kind === 'resumed')).toEqual(['resumed', 'paused']);
    expect(allChecks(await room.bundle('B-1041')).filter((check) => !isGood(check))).toEqual([]);
    const bundle = await room.bundle('B-1041');
    expect(next(await room.text('B-1041'), room.ledger.room(), bundle, ines)).toEqual({ want: 'resuming' });
    expect(bundle.hand).toBe(ines);
  });

  test('B-1042 has a line that was good, a seam that was not, a recut panel and two good sets', async () => {
    expect(await stands('B-1042')).toEqual({
      work: 'finished',
      step: undefined,
      set: undefined,
      holds: ['H-031 recut'],
    });
    expect((await valuesOf(room, 'B-1042', 'M2a: line on C')).slice(0, 3)).toEqual(['312', '312', '312']);
    expect((await valuesOf(room, 'B-1042', 'M2b: seam on C')).slice(0, 4)).toEqual(['312', '313', '316', '316']);
    expect((await room.bundle('B-1042')).finished).toEqual({ sets: 2, good: 2, conceded: 0, scrapped: 0, held: 0 });
    const held = (await room.bundle('B-1042')).holds[0];
    expect(
      room.entries.some(({ at, body }) => 'step' in body && body.step === 'join-a-to-b' && at < `${held?.at}`),
    ).toBe(false);
  });

  test('B-1043 stays on revision B and is held at the kit', async () => {
    expect(await stands('B-1043')).toEqual({ work: 'open', step: 1, set: null, holds: ['H-030 open'] });
    expect((await room.bundle('B-1043')).text?.revision).toBe('B');
    expect(
      room.ledger
        .room()
        .releases.get('LIN-2207' as ProcedureId)
        ?.map(({ revision }) => revision),
    ).toEqual(['A', 'B', 'C']);
  });

  test('B-1044 has diagonals seven apart and is in rework', async () => {
    expect(await stands('B-1044')).toEqual({ work: 'paused', step: 10, set: 1, holds: ['H-033 rework'] });
    expect(await valuesOf(room, 'B-1044', 'M8: diagonal')).toEqual(['1191', '1184', '7']);
    const rows = await room.rows('B-1044');
    expect(rows.filter(({ verdict }) => verdict === 'above').map(({ value, limit }) => [value, limit])).toEqual([
      ['7', 'at most 5 mm'],
    ]);
  });

  test('B-1045 is held where two rolls meet', async () => {
    expect(await stands('B-1045')).toEqual({ work: 'open', step: 6, set: 1, holds: ['H-032 open'] });
  });

  test('B-1046 is finished with one panel by concession', async () => {
    expect(await stands('B-1046')).toMatchObject({ work: 'finished', holds: ['H-029 concession'] });
    expect((await room.bundle('B-1046')).finished).toEqual({ sets: 3, good: 3, conceded: 1, scrapped: 0, held: 0 });
    expect(await valuesOf(room, 'B-1046', 'M10')).toEqual(['0', '30', '0']);
  });

  test('two tickets wait to be opened by a newcomer', () => {
    const fresh = room.ledger.bundles().filter(({ work }) => work === 'not opened');
    expect(fresh.map(({ ticket, procedure }) => `${ticket} ${procedure}`)).toEqual([
      'B-1047 LIN-2207',
      'B-1048 CUT-0100',
    ]);
  });
});

describe('the ledger', () => {
  test('goes forward from entry to entry, and ends before today', () => {
    const times = room.entries.map(({ at }) => parseStamp(at)?.ms ?? Number.NaN);
    expect(times).toEqual(times.toSorted((a, b) => a - b));
    expect(Math.max(...times)).toBeLessThan(instant('2026-11-25T00:00:00+01:00').ms);
    expect(room.entries.filter(({ body }) => 'clockBack' in body)).toEqual([]);
  });

  test('is worked in between six and five, Monday to Friday', () => {
    const odd = room.entries.filter(({ at }) => {
      const day = new Date(`${at.slice(0, 10)}T12:00:00Z`).getUTCDay();
      return day === 0 || day === 6 || at.slice(11, 16) < '06:00' || at.slice(11, 16) > '17:00';
    });
    expect(odd).toEqual([]);
  });

  test('nobody is their own second person', () => {
    for (const { kind, body, hand } of room.entries) if (kind === 'checked') expect(body.witness).not.toBe(hand);
  });

  test('can be made in later years, and in the first minutes of a week', async () => {
    const newYear = instant('2029-01-01T00:05:00-08:00');
    const cwd = tempFolder();
    expect(await callDemo(cwd, 'room', { at: newYear })).toMatchObject({ code: 0 });
    const later = await readRoom(join(cwd, 'room'), newYear);
    expect(later.entries).toHaveLength(room.entries.length);
    expect((await later.bundle('B-1046')).holds[0]?.settled?.how).toMatchObject({ expires: '2028-12-31' });
    expect(later.entries.at(-1)?.at).toMatch(/^2028-12-29T15:.*-08:00$/);
    await later.close();
  });
});

describe('the folder', () => {
  test('says that it is invented wherever one looks', () => {
    expect(readdirSync(folder).sort()).toEqual(['.walkfoot', 'README.md', 'media', 'procedures', 'walkfoot.yaml']);
    for (const file of ['README.md', 'walkfoot.yaml', 'procedures/LIN-2207.md'])
      expect(readFileSync(join(folder, file), 'utf8')).toContain('invented');
    for (const { badge } of room.ledger.room().hands.values()) expect(badge).toMatch(/^INVENTED-/);
    expect(printed).toContain('invented');
  });

  test('holds the four procedures, one of them in Spanish too, and every picture they show', () => {
    const names = readdirSync(join(folder, 'procedures')).filter((name) => name !== 'README.md');
    expect(names.sort()).toEqual(['CUS-0412.md', 'CUT-0100.md', 'HOD-0931.md', 'LIN-2207.es.md', 'LIN-2207.md']);
    for (const name of names) {
      const { procedure } = readProcedure(readFileSync(join(folder, 'procedures', name), 'utf8'), name);
      const release = room.ledger.room().releases.get(procedure.id)?.at(-1);
      expect(release?.pictures.length).toBeGreaterThan(0);
    }
  });

  test('is told with commands that work', async () => {
    const asked = /walkfoot who (\S+) --room (\S+)/.exec(printed);
    const { code, out } = await called((io) => who(asked?.[1], { room: asked?.[2] ?? '' }, io), home);
    expect(code).toBe(0);
    expect(out).toContain('C-R1');
    expect(printed).toContain('walkfoot sew B-1047 --hand Ines --room practice-room');
  });
});

describe('what is there already', () => {
  test('a room stays as it is', async () => {
    const before = room.entries.length;
    const { code, err } = await callDemo(home, 'practice-room');
    expect(code).toBe(2);
    expect(err).toMatch(/^walkfoot: There is a room in .* already, and it stays as it is: name another folder\.\n$/);
    expect(await room.store.head()).toBe(before - 1);
  });

  test('a practice room is opened, and made first when it is missing', async () => {
    const cwd = tempFolder();
    // What an interrupted making leaves behind.
    mkdirSync(join(cwd, 'practice-room', '.making', 'procedures'), { recursive: true });
    const first = await callDemo(cwd, undefined, { open: true });
    expect(readdirSync(join(cwd, 'practice-room'))).not.toContain('.making');
    expect(first).toMatchObject({ code: 0, err: '' });
    expect(first.out).toContain('All of it is made up.');
    const second = await callDemo(cwd, undefined, { open: true });
    expect(second).toMatchObject({ code: 0, err: '' });
    expect(second.out).not.toContain('All of it is made up.');
    expect(second.out).not.toBe('');
  });

  test('a room of somebody’s own is not opened as practice', async () => {
    const cwd = tempFolder();
    cpSync(folder, join(cwd, 'mine'), { recursive: true });
    writeFileSync(join(cwd, 'mine', 'walkfoot.yaml'), 'name: Our room\nstation: SEW-1\n');
    const { code, err } = await callDemo(cwd, 'mine', { open: true });
    expect(code).toBe(2);
    expect(err).toContain('is no practice room: open it with `walkfoot --room mine`.');
  });

  test('a folder with other things in it is left alone', async () => {
    const cwd = tempFolder();
    writeFileSync(join(cwd, 'letter.txt'), 'dear');
    expect(await callDemo(cwd, '.')).toMatchObject({ code: 2, out: '' });
    expect(readdirSync(cwd)).toEqual(['letter.txt']);
  });
});

describe('older texts', () => {
  const lining = readFileSync(join('procedures', 'LIN-2207.md'), 'utf8');

  test('differ from each other and are read without an error', () => {
    const texts = [...pastRevisions('LIN-2207' as ProcedureId, lining), lining];
    expect(new Set(texts).size).toBe(3);
    for (const text of texts) expect(readProcedure(text, 'LIN-2207.md').findings).toEqual([]);
  });

  test('are not made up where the text has changed under them', () => {
    const changed = lining.replace('drawn lines seen by a second person', 'lines seen');
    expect(() => pastRevisions('LIN-2207' as ProcedureId, changed)).toThrow('stands 0 times in the newer one');
  });
});

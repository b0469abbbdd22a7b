import { copyFileSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { releaseProcedure } from '../../src/commands/release.ts';
import { verify } from '../../src/commands/verify.ts';
import { who } from '../../src/commands/who.ts';
import { withdraw } from '../../src/commands/withdraw.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { callDemo, called } from './demo-room.ts';

const PIN = '7305\n';

/** A practice room where Vera works at her desk; B-1041 is at work on revision C of the lining. */
async function desk() {
  const cwd = tempFolder();
  await callDemo(cwd, 'room');
  const room = join(cwd, 'room');
  // What is changed here is changed in the main text alone.
  rmSync(join(room, 'procedures/LIN-2207.es.md'));
  const draft = join(room, 'procedures/LIN-2207.md');
  const at = { room, hand: 'Vera' };
  return {
    room,
    rewrite: (from: string, to: string) => {
      const text = readFileSync(draft, 'utf8');
      expect(text).toContain(from);
      writeFileSync(draft, text.replace(from, to));
    },
    release: (options: Partial<Parameters<typeof releaseProcedure>[1]> = {}, pin = PIN, named = 'LIN-2207') =>
      called((io) => releaseProcedure(named, { ...at, ...options }, io), cwd, undefined, pin),
    withdraw: (revision: string, options: Partial<Parameters<typeof withdraw>[2]> = {}) =>
      called(
        (io) => withdraw('lin-2207', revision, { ...at, reason: 'lines wrong', ...options }, io),
        cwd,
        undefined,
        PIN,
      ),
    verify: () => called((io) => verify(undefined, { room }, io), cwd),
    who: (ticket: string) => called((io) => who(ticket, { room, json: true }, io), cwd),
  };
}

test('a release says what changed, and asks first what becomes of the bundles at work', async () => {
  const { release, rewrite, verify, who } = await desk();
  rewrite('(312 ±1.5 of', '(312 ±1 of');
  const asked = await release();
  expect(asked).toMatchObject({
    code: 2,
    err: expect.stringMatching(/B-1041: begun on an older revision.*--open-bundles finish/),
  });
  const done = await release({ openBundles: 'finish' });
  expect(done).toMatchObject({ code: 0, err: '' });
  expect(done.out).toMatch(/limit tightened: M2b: seam on A to its aft edge: 310\.5 to 313\.5 mm → 311 to\s+313 mm/);
  expect(done.out).toMatch(/LIN-2207 revision D is released by Vera\..*\nB-1041 is to be finished on the revision/);
  expect((await who('B-1041')).out).toContain('revision C, although D is in use');
  expect(await verify()).toMatchObject({ code: 0 });
});

test('a bundle is held where the supervisor says so', async () => {
  const { release, rewrite, who } = await desk();
  rewrite('(312 ±1.5 of', '(312 ±1 of');
  const { out } = await release({ openBundles: 'hold', json: true });
  expect(JSON.parse(out)).toMatchObject({
    procedure: 'LIN-2207',
    revision: 'D',
    changed: [{ about: 'limit', change: 'tightened' }],
    bundles: [{ ticket: 'B-1041', fate: 'hold' }],
  });
  expect((await who('B-1041')).out).toContain('LIN-2207 revision D is released');
});

test('of a text that is released already only what is undecided is asked', async () => {
  const { release, rewrite } = await desk();
  const same = { code: 2, err: expect.stringContaining('is this very text') };
  // Its sheet is gone, and that is a change of what was released.
  expect(await release({ openBundles: 'finish' })).toMatchObject({ code: 0 });
  expect(await release({ openBundles: 'finish' })).toMatchObject(same);
  rewrite('(312 ±1.5 of', '(312 ±1 of');
  await release({ openBundles: 'finish' });
  expect(await release({ openBundles: 'hold' })).toMatchObject(same);
});

test('a text without an author is not released, nor by its own author in a room with several supervisors', async () => {
  const { release, rewrite, room } = await desk();
  rewrite('author: Ines\n', '');
  expect(await release({ openBundles: 'finish' })).toMatchObject({
    code: 2,
    err: expect.stringContaining('author: Ines at its top'),
  });
  rewrite('procedure: LIN-2207\n', 'procedure: LIN-2207\nauthor: Nobody\n');
  expect(await release({ openBundles: 'finish' })).toMatchObject({
    code: 2,
    err: expect.stringContaining('called Nobody'),
  });
  rewrite('author: Nobody', 'author: Vera');
  expect(await release({ openBundles: 'finish' })).toMatchObject({
    code: 2,
    err: expect.stringContaining('let another supervisor'),
  });
  const settings = join(room, 'walkfoot.yaml');
  writeFileSync(settings, readFileSync(settings, 'utf8').replace('supervisors: several', 'supervisors: one'));
  expect(await release({ openBundles: 'finish' })).toMatchObject({ code: 0 });
});

test('a revision is withdrawn, and what is at work on it is decided of', async () => {
  const { withdraw, verify, who } = await desk();
  expect(await withdraw('C')).toMatchObject({ code: 2, err: expect.stringContaining('B-1041') });
  const done = await withdraw('c', { openBundles: 'hold' });
  expect(done).toMatchObject({ code: 0, err: '' });
  expect(done.out).toMatch(/revision C is withdrawn by Vera\. Until another is released.*\nB-1041 is on hold/);
  expect((await who('B-1041')).out).toContain('revision C is withdrawn: lines wrong');
  expect(await withdraw('C', { openBundles: 'hold' })).toMatchObject({
    code: 2,
    err: expect.stringContaining('no revision C in use'),
  });
  expect(await verify()).toMatchObject({ code: 0 });
});

test('where only a picture changed it is a new revision like any other, and the bundles at work are asked about', async () => {
  const { room, release } = await desk();
  const picture = join(room, 'media/lining.svg');
  writeFileSync(picture, readFileSync(picture, 'utf8').replace('</svg>', '<!-- drawn anew --></svg>'));
  expect(await release()).toMatchObject({
    code: 2,
    err: expect.stringContaining('B-1041: begun on an older revision'),
  });
  const done = await release({ openBundles: 'finish' });
  expect(done.out).toMatch(/picture redrawn[\s\S]*revision D is released by Vera\..*\nB-1041 is to be finished/);
});

test('a draft with errors is refused before anything is asked', async () => {
  const { rewrite, release } = await desk();
  rewrite('of seam-D1–A-aft)', 'of seam-D1–A-aft');
  const refused = await release();
  expect(refused).toMatchObject({ code: 1, out: '', err: expect.stringContaining('Not released: mend the errors') });
  expect(refused.err).not.toContain('B-1041');
});

test('of two texts with one id neither is released, named by its path or by its id', async () => {
  const { room, release, rewrite } = await desk();
  rewrite('(312 ±1.5 of', '(312 ±1 of');
  copyFileSync(join(room, 'procedures/LIN-2207.md'), join(room, 'procedures/copy.md'));
  const both = /procedures\/\S+ and procedures\/\S+ say `procedure: LIN-2207`: give one of them another id\./;
  for (const named of ['LIN-2207', join(room, 'procedures/copy.md'), join(room, 'procedures/LIN-2207.md')])
    expect(await release({}, PIN, named)).toMatchObject({ code: 2, out: '', err: expect.stringMatching(both) });
});

test('a bundle that was to be finished on a revision is held when that is withdrawn', async () => {
  const { rewrite, release, withdraw, who } = await desk();
  rewrite('(312 ±1.5 of', '(312 ±1 of');
  await release({ openBundles: 'finish' });
  const done = await withdraw('C', { openBundles: 'hold' });
  expect(done).toMatchObject({ code: 0, out: expect.stringContaining('B-1041 is on hold') });
  expect((await who('B-1041')).out).toContain('revision C is withdrawn: lines wrong');
});

test('who may not is told before anything is asked', async () => {
  const { release, rewrite, withdraw } = await desk();
  expect(await withdraw('C', { hand: 'Ines' })).toMatchObject({
    code: 2,
    err: expect.stringContaining('no supervisor'),
  });
  rewrite('author: Ines', 'author: Vera');
  const own = await release();
  expect(own).toMatchObject({ code: 2, err: expect.stringContaining('let another supervisor') });
  expect(own.err).not.toContain('B-1041');
});

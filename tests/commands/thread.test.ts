import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { thread } from '../../src/commands/thread.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { callDemo, called } from './demo-room.ts';

/** A practice room, with changes to its files. */
async function practice(...changes: readonly (readonly [file: string, from: string, to: string])[]) {
  const cwd = tempFolder();
  await callDemo(cwd, 'room');
  const room = join(cwd, 'room');
  for (const [file, from, to] of changes) {
    const text = readFileSync(join(room, file), 'utf8');
    expect(text).toContain(from);
    writeFileSync(join(room, file), text.replace(from, to));
  }
  return (procedure: string, options: { readonly sets?: string; readonly json?: boolean } = {}) =>
    called(
      (io) =>
        thread(procedure === 'the draft' ? join(room, 'procedures/LIN-2207.md') : procedure, { room, ...options }, io),
      cwd,
    );
}

test('the drawings of the practice room come to the sums that were reckoned by hand (invented)', async () => {
  const room = await practice();
  const lining = await room('LIN-2207');
  expect(lining.code).toBe(0);
  expect(lining.out).toMatch(/A set +15451 +22\.2 +22\.2/);
  expect(lining.out).toContain('Change before set 2, step 4: 7.8 m left, and the set takes 22.2 m.');
  const cushion = await room('cus-0412', { sets: '1' });
  expect(cushion.out).toMatch(/A set +21854 +31\.4 +31\.4/);
  expect(cushion.out).toContain('Change before set 1, step 9: 3.1 m left, and the step takes 4.5 m.');
  expect((await room('HOD-0931')).out).toMatch(/A set +11569 +16\.6 +16\.6/);
  expect((await room('CUT-0100')).out).toContain('names seams, so there is no thread');
});

test('for programs each seam has its length and its thread, in millimetres', async () => {
  const room = await practice();
  const { steps, changes, bundle } = JSON.parse((await room('LIN-2207', { json: true })).out);
  expect(steps[0]).toMatchObject({ step: 4, seams: [{ id: 'D1', length: '945', bobbin: '1358.4375' }, {}, {}, {}] });
  expect(changes).toMatchObject([{ set: 2, step: 4, because: 'set' }]);
  expect(Number(bundle.bobbin)).toBeCloseTo(
    2 * Number(steps.reduce((sum: number, { bobbin }: { bobbin: string }) => sum + Number(bobbin), 0)),
    3,
  );
});

test('where the text says what is sewn through it is reckoned by the formula, and the room’s own numbers come first', async () => {
  const draft = 'procedures/LIN-2207.md';
  const room = await practice(
    [draft, 'T1 T2 T3 T4, stitch 301 at 5.0 mm', 'T1 T2 T3 T4, stitch 301 at 5.0 mm through 2.5 mm'],
    [draft, 'G, stitch 301 at 4.0 mm', 'G, stitch 504 at 4.0 mm'],
    ['walkfoot.yaml', 'thread waste: 15 %', 'thread waste: 0 %'],
  );
  const told = await room('the draft');
  expect(told.out.replace(/\n/g, ' ')).toContain(
    '301 at 5 mm (20 st/100mm, 5 st/25mm, 5.1 spi) through 2.5 mm: 2 + 2·T/L, half on the bobbin.',
  );
  const sewn = (await room('the draft', { json: true })).out;
  expect(JSON.parse(sewn).steps[4]).toMatchObject({ step: 9, stitch: '301', stitchLength: '5', thickness: '2.5' });
  // 5040 mm with 1 + 2.5/5 of thread on either side.
  expect(told.out).toMatch(/9 Top-stitch the joins +5040 +7\.6 +7\.6/);
  expect(told.code).toBe(1);
  expect(told.out).toMatch(/Step 10: the room keeps no ratio for stitch 504; write it into walkfoot\.yaml/);
});

test('only a lockstitch takes thread from a bobbin; where something could not be reckoned a sum says at least', async () => {
  const draft = 'procedures/LIN-2207.md';
  const room = await practice(
    [draft, 'T1 T2 T3 T4, stitch 301', 'T1 T2 T3 T4, stitch 401'],
    [draft, 'G, stitch 301', 'G, stitch 504'],
  );
  const { out } = await room('the draft');
  expect(out).toMatch(/step +seams mm +needle m +bobbin m +loopers m/);
  // 5040 mm at 5.5 to 1 with a quarter for the needle and 15 % waste.
  expect(out).toMatch(/9 Top-stitch the joins +5040 +8\.0 +0\.0 +23\.9/);
  expect(out).toMatch(/10 Sew the aft webbing +\? +\? +\? +\?/);
  expect(out).toMatch(/A set, at least +12971 +19\.4 +11\.4 +23\.9/);
  expect(out).toContain('Bobbins of 30.0 m: at least 1 for 2 sets.');
  const { steps, bundle } = JSON.parse((await room('the draft', { json: true })).out);
  expect(steps[4]).toMatchObject({ step: 9, bobbin: '0', seams: [{ bobbin: '0' }, {}, {}, {}] });
  expect(Number(bundle.loopers)).toBeCloseTo(2 * 5040 * 5.5 * 0.75 * 1.15, 0);
});

test('bobbins that change within a step are counted, too', async () => {
  const room = await practice(['walkfoot.yaml', 'bobbin: 30 m', 'bobbin: 3 m']);
  const { out } = await room('LIN-2207', { sets: '1' });
  // Step 9 takes 5040 · 1.25 · 1.15 = 7.2 m: its own bobbin and two more.
  expect(out).toContain('Change between two seams of set 1, step 9, 2 times: the step takes 7.2 m.');
  const { changes } = JSON.parse((await room('LIN-2207', { sets: '1', json: true })).out);
  const count = changes.reduce((sum: number, { bobbins }: { bobbins: number }) => sum + bobbins, 1);
  expect(out).toContain(`Bobbins of 3.0 m: ${count} for the set.`);
  expect(count).toBeGreaterThan(7);
});

test('what a drawing does not have is in no sum, and said', async () => {
  const room = await practice(['procedures/LIN-2207.md', 'Seams: A-B,', 'Seams: A-B A-X,']);
  const told = await room('the draft');
  expect(told.code).toBe(1);
  expect(told.out).toMatch(/Step 6: no drawing of the procedure has a seam A-X/);
});

test.each(['0', '2.5', 'two', '100000', '0x10', '1e2', ''])('%s sets are refused', async (sets) => {
  const room = await practice();
  expect(await room('LIN-2207', { sets })).toMatchObject({ code: 2, err: expect.stringContaining('--sets 2') });
});

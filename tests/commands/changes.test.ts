import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { changes } from '../../src/commands/changes.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { callDemo, called } from './demo-room.ts';

/** A practice room, with its draft of the lining written anew, and what differs in it. */
async function comparing(...rewritten: readonly (readonly [string, string])[]) {
  return (await compared(...rewritten)).compare;
}

async function compared(...rewritten: readonly (readonly [string, string])[]) {
  const cwd = tempFolder();
  await callDemo(cwd, 'room');
  const room = join(cwd, 'room');
  const draft = join(room, 'procedures/LIN-2207.md');
  const text = readFileSync(draft, 'utf8');
  for (const [from] of rewritten) expect(text).toContain(from);
  writeFileSync(
    draft,
    rewritten.reduce((words, [from, to]) => words.replace(from, to), text),
  );
  const compare = (from?: string, to?: string, options: { readonly json?: boolean } = {}, procedure = 'lin-2207') =>
    called((io) => changes(procedure, from, to, { room, ...options }, io), cwd);
  return { room, compare };
}

test('two revisions are compared step by step', async () => {
  const compare = await comparing();
  expect(await compare('b', 'C')).toMatchObject({
    code: 0,
    err: '',
    out: expect.stringMatching(
      /^LIN-2207, from revision B to revision C: 3 differences\.\n.*step 9\n.*new words.*limit tightened: M6.*2 to 4 mm → 2\.5 to 3\.5\s+mm/s,
    ),
  });
});

test('a draft is compared with the newest revision, and says when nothing differs', async () => {
  const compare = await comparing();
  expect(await compare()).toMatchObject({ code: 0, out: expect.stringMatching(/nothing that is\s+shown differs/) });
});

test('readings of past bundles that the newer limit would shut out are named, and the answer is bad news', async () => {
  const compare = await comparing(['(312 ±1.5 of seam-D1–A-aft)', '(300 ±1.5)']);
  const told = await compare(undefined, undefined, { json: true });
  const { wouldFail, differences } = JSON.parse(told.out);
  expect(told.code).toBe(1);
  expect(differences).toMatchObject([
    { about: 'point', change: 'changed', step: 4, before: expect.stringContaining('seam-D1–A-aft') },
    { about: 'limit', change: 'shifted', step: 4, limits: { after: { high: '301.5' } } },
  ]);
  expect(wouldFail[0]).toMatchObject({ ticket: 'B-1042', step: 4, verdict: 'above', limit: '298.5 to 301.5 mm' });
  for (const { value, by } of wouldFail) expect(Number(by)).toBeCloseTo(Number(value) - 301.5, 9);
  // A reading that was out when it was taken is no news.
  expect(wouldFail.map(({ value }: { value: string }) => value)).not.toContain('316');
  const { out } = await compare();
  expect(out).toMatch(
    /\d+ readings in 2 bundles would be outside the newer limits:\n {2}B-1042, revision C, set 1, step 4/,
  );
  for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
});

test.each([
  ['a revision that is not there', 'X', undefined, undefined, 'no revision X: there are A, B, C'],
  ['a procedure that is not there', undefined, undefined, 'LIN-9', 'No revision of LIN-9 is released'],
])('%s is a sentence with the way out', async (_, from, to, procedure, words) => {
  const compare = await comparing();
  expect(await compare(from, to, {}, procedure)).toMatchObject({
    code: 2,
    out: '',
    err: expect.stringContaining(words),
  });
});

test('a draft with errors is not compared', async () => {
  const compare = await comparing(['(312 ±1.5 of', '(312 ± of']);
  expect(await compare()).toMatchObject({
    code: 2,
    err: expect.stringContaining('walkfoot proofread procedures/LIN-2207.md'),
  });
});

test('a picture of the draft that was drawn anew is told', async () => {
  const { room, compare } = await compared();
  const picture = join(room, 'media/lining.svg');
  writeFileSync(picture, readFileSync(picture, 'utf8').replace('</svg>', '<!-- drawn anew --></svg>'));
  expect((await compare()).out).toContain('picture redrawn');
});

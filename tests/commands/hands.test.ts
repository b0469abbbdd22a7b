import { afterAll, beforeAll, expect, test } from 'vitest';
import { retireHand, setSkill } from '../../src/commands/hand.ts';
import { hands } from '../../src/commands/hands.ts';
import { practiceRoom, verasPin } from '../playthrough/lining.ts';
import { called } from './demo-room.ts';

let room: ReturnType<typeof practiceRoom>;
beforeAll(() => {
  room = practiceRoom();
});
afterAll(() => room.remove());

const asked = (options: Parameters<typeof hands>[0] = {}) => called((io) => hands(options, io), room.folder);
const ofSkill = async (skill: string) => {
  const { out } = await asked({ skill, json: true });
  const [operation] = JSON.parse(out);
  return operation;
};

test('the practice room’s hands against the operations its procedures need', async () => {
  const { code, out, err } = await asked();
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toContain('Only Tomas does window rows alone.');
  expect(out).toContain('perforated join: Tomas, whom Ines can teach');
  expect(out).not.toContain('Ruth');
});

test('one operation, for a program: the steps that need it, who does it alone, who is trained next, and the last day of each', async () => {
  expect(await ofSkill('Window  ROWS')).toMatchObject({
    skill: 'window rows',
    steps: [
      { procedure: 'HOD-0931', step: 5 },
      { procedure: 'HOD-0931', step: 7 },
    ],
    alone: ['OP-03'],
    trainNext: ['OP-04'],
  });
  const { hands: doings } = await ofSkill('top-stitch vinyl');
  const days = Object.fromEntries(doings.map((each: { name: string; lastDay: string }) => [each.name, each.lastDay]));
  // The last bundle with that step was topstitched by Tomas; Ines has come only as far as the step before.
  expect(days).toMatchObject({ Tomas: expect.stringMatching(/^\d{4}-\d{2}-\d{2}$/), Ines: null, Maj: null });
});

test('an operation nobody named says which there are', async () => {
  const { code, err } = await asked({ skill: 'knitting' });
  expect({ code, err }).toMatchObject({
    code: 2,
    err: expect.stringContaining('there are sleeve to line, perforated join'),
  });
});

test('who is retired is in no row', async () => {
  const away = await called((io) => retireHand('Tomas', { hand: 'Vera' }, io), room.folder, undefined, `${verasPin}\n`);
  expect(away).toMatchObject({ code: 0 });
  expect(await ofSkill('window rows')).toMatchObject({ alone: [] });
  expect((await asked()).out).toContain('Nobody does window rows alone');
});

test('a level in an operation that no procedure in use asks for is entered, with the nearest that one does', async () => {
  const enter = (skill: string) =>
    called((io) => setSkill('Maj', skill, '3', { hand: 'Vera' }, io), room.folder, undefined, '7305\n');
  const known = await enter('Window  Rows');
  expect(known).toMatchObject({ code: 0, err: '' });
  expect(known.out).not.toContain('No procedure');
  const slip = await enter('top-stich vinyl');
  expect(slip).toMatchObject({ code: 0, err: '' });
  expect(slip.out).toMatch(
    /Maj: top-stich vinyl, 3 alone\.\nNo procedure in use asks for top-stich vinyl; the nearest that one asks for: top-stitch vinyl, .+, .+\.\n$/,
  );
  expect(JSON.parse((await asked({ skill: 'top-stich vinyl', json: true })).out)[0].steps).toEqual([]);
});

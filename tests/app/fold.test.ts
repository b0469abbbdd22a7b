import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asked, heard } from '../../src/app/dialogue.ts';
import { isFolded } from '../../src/app/fold.ts';
import { isOpen, modeOf } from '../../src/app/mode.ts';
import type { AppStore } from '../../src/app/store.ts';
import type { HandId } from '../../src/base/brand.ts';
import type { Key } from '../../src/keys/key.ts';
import { pageOf } from '../../src/screens/page-of.ts';
import { page } from '../../src/widgets/page.ts';
import { rowText } from '../../src/widgets/row.ts';
import { press, pressKey } from '../screens/lining.ts';
import '../seed.ts';
import { foldProcedure } from './fold-procedure.ts';
import { type Workroom, workroom } from './workroom.ts';

const set = async ({ ledger }: Workroom, who: string, level: number): Promise<void> => {
  const [hand, skill] = ['V-01' as HandId, 'sleeve to line'];
  const done = await ledger.attempt(null, { do: 'set skill', hand, who: who as HandId, skill, level });
  if (!done.ok) throw new Error(done.error.message);
};

/** Ines, who can teach unless told otherwise, at the first step of B-1. */
async function begun(level = 4, keys = ''): Promise<{ room: Workroom; program: AppStore }> {
  const room = await workroom(foldProcedure);
  await set(room, 'OP-02', level);
  const program = await room.program();
  await press(program, `"ines" enter "b-1" enter ${keys}`);
  return { room, program };
}
const sizes = [
  [60, 20],
  [80, 24],
  [120, 40],
] as const;
const shown = (program: AppStore, [columns, rows]: readonly [number, number] = [80, 24]): string =>
  page(pageOf(program.app(), { columns, rows })).map(rowText).join('\n');
const checked = async ({ store }: Workroom): Promise<readonly { readonly folded?: true; readonly point: string }[]> =>
  (await store.read({ kinds: ['checked'] })).map(({ entry }) => entry.body as never);

describe.each(sizes)('at %i × %i', (...size) => {
  test('one key folds the explanations away and brings them back; points, facts and picture stay', async () => {
    const { program } = await begun();
    expect(shown(program, size)).toContain('Face down, marks toward you.');
    expect(shown(program, size)).toMatch(/\bf fold\b/);
    await press(program, 'f');
    const folded = shown(program, size);
    expect(folded).not.toContain('Face down');
    for (const words of ['A lies face down', 'Sleeves lie beside it', 'Side the tape is on', 'confirm each point'])
      expect(folded).toContain(words);
    expect(folded).toContain('Picture: The pieces');
    expect(folded).toMatch(/\bf unfold\b/);
    await press(program, 'f');
    expect(shown(program, size)).toContain('Face down');
  });

  test('in big letters what comes next in a folded step stands below', async () => {
    const { program } = await begun(4, 'g f');
    expect(shown(program, size)).toContain('then Sleeves lie beside it');
    expect(shown(program, size).split('\n')).toHaveLength(size[1]);
    await press(program, 'f');
    expect(shown(program, size)).not.toContain('then Sleeves');
  });
});

test('each point is confirmed by its own key, and each entry says that it was folded', async () => {
  const { room, program } = await begun(4, 'f');
  for (const [keys, count] of [
    ['enter', 1],
    ['enter', 2],
    ['"R-1" enter', 3],
    ['2 enter', 4],
    ['enter', 5],
  ] as const) {
    await press(program, keys);
    expect(await checked(room)).toHaveLength(count);
  }
  expect((await checked(room)).every(({ folded }) => folded === true)).toBe(true);
});

test('it stays for the session, unmarked in a step that must be read, where the key says why', async () => {
  const { room, program } = await begun(4, 'f enter enter "R-1" enter 2 enter enter enter');
  expect(program.app().play?.next).toMatchObject({ at: { step: { title: 'Measure the sleeves' } } });
  expect(shown(program)).toContain('Laid flat, without pulling.');
  expect(shown(program)).not.toMatch(/\bf (un)?fold\b/);
  await press(program, 'f');
  expect(program.app().message).toEqual({
    tone: 'refusal',
    text: 'Something in this step has a limit: its words stay on the screen.',
  });
  await press(program, '"27.5" enter');
  expect((await checked(room)).at(-1)).not.toHaveProperty('folded');
});

test('whoever signs on finds everything unfolded, also the same hand', async () => {
  const { program } = await begun(4, 'f enter l');
  await press(program, 'esc "ines" enter "b-1" enter enter');
  expect(shown(program)).toContain('Face down');
});

test('below the level of the step its words cannot be folded, and somebody whom nobody judged folds nothing', async () => {
  const alone = await begun(3, 'f enter enter "R-1" enter 1 enter');
  expect(shown(alone.program)).toContain('Fold on the pencil line.');
  expect(isOpen(alone.program.app(), 'fold')).toBe(false);
  await press(alone.program, 'f');
  expect(alone.program.app().message?.text).toMatch(/level 3: its words stay on the screen for everybody below 4/);
  const learner = await begun(2, 'f');
  expect(shown(learner.program)).toContain('Face down');
  expect(learner.program.app().message?.text).toMatch(/No operation is entered/);
});

test('a level that is taken away while the step is folded brings the words back', async () => {
  const { room, program } = await begun(4, 'f enter enter "R-1" enter 1 enter');
  expect(isFolded(program.app())).toBe(true);
  await set(room, 'OP-02', 3);
  await press(program, 'enter');
  expect(program.app().message?.text).toMatch(/for everybody below 4/);
  expect(shown(program)).toContain('Fold on the pencil line.');
  await press(program, 'enter enter');
  expect((await checked(room)).at(-1)).not.toHaveProperty('folded');
});

/** What a line comes to in the dialogue, with the question behind it. */
const speaking =
  (program: AppStore) =>
  async (line: string): Promise<string> => {
    const before = program.app();
    const what = heard(before, line);
    if ('news' in what) program.tell(what.news);
    await program.settled();
    const { lines, prompt } = asked(program.app(), before);
    return [...('print' in what ? what.print : []), ...lines, prompt].join('\n');
  };

test('in lines, too, the word says that there is no step to fold', async () => {
  const { program } = await begun(4, 'h "torn" enter');
  expect(await speaking(program)('fold')).toContain('There is no step before you');
});

test('in lines a word folds and another unfolds; all points stand before the first question', async () => {
  const { program } = await begun();
  const say = speaking(program);
  const folded = await say('fold');
  expect(folded).not.toContain('Face down');
  expect(folded).toMatch(
    /confirm each point[\s\S]*- A lies face down\n[\s\S]*- Side the tape is on[\s\S]*Picture: The pieces/,
  );
  expect(await say('FOLD')).toContain('It is folded already.');
  expect(await say('')).toBe('Sleeves lie beside it (enter: done) > ');
  expect(await say('unfold')).toContain('Face down');
  expect(await say('unfold')).toContain('Nothing is folded here.');
  expect(await say('?')).toContain('unfold');
});

test('whatever keys are pressed in any order, no key confirms two points and no enter on a point is lost', async () => {
  const keys: readonly Key[] = [
    ...['f', 'f', 'g', 'u', 'b', '1', '2', '?', 'n', 'R', 'x'].map((text): Key => ({ key: 'text', text })),
    ...Array.from({ length: 6 }, (): Key => ({ key: 'enter', held: 'no' })),
    { key: 'enter', held: 'yes' },
    { key: 'escape' },
    { key: 'paste', text: 'f\n' },
    { key: 'scan', text: 'B-1' },
    { key: 'down' },
  ];
  let folded = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(fc.constantFrom(...keys), { minLength: 10, maxLength: 60 }), async (pressed) => {
      const { room, program } = await begun(4, 'f');
      for (const key of pressed) {
        const before = (await checked(room)).length;
        const app = program.app();
        const isAnswer =
          key.key === 'enter' && key.held === 'no' && modeOf(app) === 'confirm' && app.message?.tone !== 'refusal';
        const wants = app.play?.next.want === 'point';
        const wasFolded = isFolded(app);
        await pressKey(program, key);
        const after = await checked(room);
        expect(after.length - before).toBeLessThanOrEqual(key.key === 'enter' || key.key === 'scan' ? 1 : 0);
        if (isAnswer && wants) expect(after.length - before).toBe(1);
        if (after.length > before) expect(after.at(-1)?.folded === true).toBe(wasFolded);
        if (after.length > before && wasFolded) folded++;
      }
    }),
    { numRuns: 200 },
  );
  expect(folded).toBeGreaterThan(100);
});

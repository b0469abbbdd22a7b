import { expect, test } from 'vitest';
import { chosenRow, type DeskDraft, deskRows, filesToEdit } from '../../src/app/desk.ts';
import { rowWords } from '../../src/app/desk-words.ts';
import { modeOf } from '../../src/app/mode.ts';
import type { Move, Order } from '../../src/app/move.ts';
import type { AppStore } from '../../src/app/store.ts';
import type { Command } from '../../src/bundle/command.ts';
import { differences } from '../../src/procedure/differences.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { smallProcedure, type Workroom, workroom } from './workroom.ts';

const move = async (program: AppStore, ...moves: readonly Move[]): Promise<void> => {
  for (const one of moves) program.tell({ news: 'move', move: one });
  await program.settled();
};
const order = (program: AppStore, one: Order): Promise<void> => move(program, { move: 'order', order: one });
const line = (program: AppStore, text: string): Promise<void> =>
  move(program, { move: 'type', text }, { move: 'enter' });
const down: Move = { move: 'down' };
const enter: Move = { move: 'enter' };

function draftOf(text: string): DeskDraft {
  const [before, { procedure, findings }] = [smallProcedure, text].map((each) =>
    readProcedure(each, 'procedures/T-1.md'),
  ) as [ReturnType<typeof readProcedure>, ReturnType<typeof readProcedure>];
  const changes = differences(before.procedure, procedure);
  const isReleased = text === smallProcedure;
  return { file: 'procedures/T-1.md', procedure, findings, revision: 'A', withdrawn: false, isReleased, changes };
}

async function deskOf(room: Workroom, text = smallProcedure): Promise<AppStore> {
  return room.program({ home: 'desk', desk: { drafts: [draftOf(text)] } });
}

/** Vera at her desk; Ines holds B-1 at her machine. */
async function withAHold() {
  const room = await workroom(smallProcedure);
  const sewer = await room.program();
  for (const word of ['ines', 'b-1', '4']) await line(sewer, word);
  await order(sewer, 'hold');
  await line(sewer, 'shade is off');
  const desk = await deskOf(room);
  await line(desk, 'vera');
  return { room, sewer, desk };
}

const attempt = async ({ ledger }: Workroom, ticket: string | null, command: Command): Promise<void> => {
  const done = await ledger.attempt(ticket as never, command);
  if (!done.ok) throw new Error(done.error.message);
};

test('the desk is a supervisor’s, and a sewer is sent to the station without an entry', async () => {
  const room = await workroom(smallProcedure);
  const desk = await deskOf(room);
  const before = await room.store.head();
  await line(desk, 'ines');
  expect(desk.app()).toMatchObject({
    hand: null,
    message: { tone: 'refusal', text: expect.stringContaining('for supervisors') },
  });
  expect(await room.store.head()).toBe(before);
  await line(desk, 'vera');
  expect(modeOf(desk.app())).toBe('desk');
});

test('a hold that waits stands first, and whoever is on settles it from here', async () => {
  const { desk, room, sewer } = await withAHold();
  expect(deskRows(desk.app()).map(({ row }) => row)).toEqual(['hold', 'draft']);
  await move(desk, enter);
  expect(modeOf(desk.app())).toBe('hold');
  await order(desk, 'settle');
  await move(desk, enter, enter, enter);
  await line(desk, 'shade matched');
  expect(desk.app()).toMatchObject({ play: null, message: { text: 'H-001 of B-1 is settled.' } });
  expect(deskRows(desk.app()).map(({ row }) => row)).toEqual(['bundle', 'draft']);
  sewer.tell({ news: 'second' });
  await sewer.settled();
  expect(sewer.app().play?.next.want).toBe('point');
  expect(room.bells()).toBe(0);
});

test('a bundle is only looked at: nothing of it is recorded, and enter leads back', async () => {
  const { desk, room } = await withAHold();
  await attempt(room, null, {
    do: 'make ticket',
    hand: 'room' as never,
    ticket: 'B-2' as never,
    procedure: 'T-1' as never,
    sets: 1,
    rolls: [],
  });
  desk.tell({ news: 'second' });
  await desk.settled();
  const before = await room.store.head();
  await move(desk, down, enter);
  expect(desk.app().play?.ticket).toBe('B-2');
  await move(desk, enter);
  expect(desk.app().play).toBeNull();
  expect(await room.store.head()).toBe(before);
});

test('what others write is seen, and the row that was chosen stays the chosen one', async () => {
  const room = await workroom(smallProcedure);
  const desk = await deskOf(room);
  await line(desk, 'vera');
  await move(desk, down, down);
  expect(chosenRow(desk.app())?.row).toBe('draft');
  await attempt(room, null, {
    do: 'make ticket',
    hand: 'room' as never,
    ticket: 'B-0' as never,
    procedure: 'T-1' as never,
    sets: 1,
    rolls: [],
  });
  desk.tell({ news: 'second' });
  await desk.settled();
  expect(deskRows(desk.app())).toHaveLength(3);
  expect(chosenRow(desk.app())?.row).toBe('draft');
});

test('a draft is edited, rehearsed and released by giving the terminal away; with errors it is neither rehearsed nor released', async () => {
  for (const errand of ['edit', 'rehearse', 'release'] as const) {
    const desk = await deskOf(await workroom(smallProcedure));
    await line(desk, 'vera');
    await move(desk, down);
    await order(desk, errand);
    expect(await desk.over).toBe(0);
    const file = 'procedures/T-1.md';
    expect(desk.app().errand).toEqual(errand === 'edit' ? { do: errand, files: [file] } : { do: errand, file });
  }
  const bad = await deskOf(await workroom(smallProcedure), smallProcedure.replace('(4)', '(4'));
  await line(bad, 'vera');
  await move(bad, down);
  for (const [errand, done] of [
    ['rehearse', 'rehearsed'],
    ['release', 'released'],
  ] as const) {
    await order(bad, errand);
    const message = { text: `It has errors: mend them before it is ${done}.` };
    expect(bad.app()).toMatchObject({ ended: null, errand: null, message });
  }
});

test('an open draft follows every save', async () => {
  const desk = await deskOf(await workroom(smallProcedure));
  await line(desk, 'vera');
  await move(desk, down);
  await order(desk, 'compare');
  expect(modeOf(desk.app())).toBe('draft');
  desk.tell({ news: 'drafts', drafts: [draftOf(smallProcedure.replace('±1.5', '±1'))] });
  await desk.settled();
  expect(desk.app().desk?.drafts[0]?.changes).toMatchObject([{ about: 'limit', change: 'tightened' }]);
  expect(modeOf(desk.app())).toBe('draft');
  await move(desk, { move: 'escape' });
  expect(chosenRow(desk.app())?.row).toBe('draft');
});

test('how long a bundle has waited is told by its sewer, whatever a supervisor says of it', async () => {
  const room = await workroom(smallProcedure);
  const sewer = await room.program();
  for (const word of ['ines', 'b-1', '4']) await line(sewer, word);
  await order(sewer, 'leave');
  await room.release(smallProcedure.replace('±1.5', '±1'));
  room.clock.pass(31 * 60);
  const desk = await deskOf(room);
  await line(desk, 'vera');
  const state = () => deskRows(desk.app()).map((row) => rowWords(desk.app(), row).state)[0];
  expect(state()).toContain('left by Ines · 3');
  await order(desk, 'keep on');
  expect(state()).toContain('left by Ines · 3');
});

test('how long nobody has worked on an open bundle is not how long ago its paper was printed', async () => {
  const room = await workroom(smallProcedure);
  const sewer = await room.program();
  for (const word of ['ines', 'b-1', '4']) await line(sewer, word);
  room.clock.pass(31 * 60);
  await attempt(room, 'B-1', { do: 'print', hand: 'V-01' as never, what: 'sheet' });
  const desk = await deskOf(room);
  await line(desk, 'vera');
  expect(deskRows(desk.app()).map((row) => rowWords(desk.app(), row).state)[0]).toBe('open with Ines · 31 min ago');
});

test('of a bundle on an older revision the supervisor says that it is finished on that', async () => {
  const room = await workroom(smallProcedure);
  const sewer = await room.program();
  for (const word of ['ines', 'b-1', '4']) await line(sewer, word);
  await room.release(smallProcedure.replace('±1.5', '±1'));
  const desk = await deskOf(room);
  await line(desk, 'vera');
  await order(desk, 'keep on');
  expect(desk.app().message?.text).toBe('B-1 is to be finished on revision A.');
  const before = await room.store.head();
  await order(desk, 'keep on');
  expect(await room.store.head()).toBe(before);
});

/** A draft in which these were found. */
function found(...findings: readonly (readonly ['error' | 'warning', string])[]): DeskDraft {
  const at = { line: 1, column: 1, rule: 'r', message: 'm', found: '', mend: '' };
  return { ...draftOf(smallProcedure), findings: findings.map(([severity, file]) => ({ ...at, severity, file })) };
}

test.each([
  ['nothing', found(), ['procedures/T-1.md']],
  ['an error in a sheet', found(['error', 'procedures/T-1.es.md']), ['procedures/T-1.es.md', 'procedures/T-1.md']],
  ['a warning in a sheet', found(['warning', 'procedures/T-1.es.md']), ['procedures/T-1.md', 'procedures/T-1.es.md']],
  [
    'errors in both',
    found(['error', 'procedures/T-1.md'], ['error', 'procedures/T-1.es.md']),
    ['procedures/T-1.md', 'procedures/T-1.es.md'],
  ],
])('with %s found the editor is given what is to be mended, the first error in front', (_, draft, files) =>
  expect(filesToEdit(draft)).toEqual(files),
);

test('a bundle that was looked at stays the chosen row', async () => {
  const { desk, room } = await withAHold();
  for (const ticket of ['B-2', 'B-3'])
    await attempt(room, null, {
      do: 'make ticket',
      hand: 'room' as never,
      ticket: ticket as never,
      procedure: 'T-1' as never,
      sets: 1,
      rolls: [],
    });
  desk.tell({ news: 'second' });
  await desk.settled();
  await move(desk, down, down, enter, enter);
  expect(chosenRow(desk.app())).toMatchObject({ row: 'bundle', bundle: { ticket: 'B-3' } });
});

test('a draft that is taken away and put back is chosen as before', async () => {
  const [one, two] = ['procedures/T-1.md', 'procedures/T-2.md'].map((file) => ({ ...draftOf(smallProcedure), file }));
  if (!one || !two) throw new Error('two drafts');
  const desk = await (await workroom(smallProcedure)).program({ home: 'desk', desk: { drafts: [one, two] } });
  await line(desk, 'vera');
  await move(desk, down, down);
  for (const drafts of [[one], [], [one], [one, two]]) {
    desk.tell({ news: 'drafts', drafts });
    await desk.settled();
    expect(chosenRow(desk.app())).toBeDefined();
  }
  expect(chosenRow(desk.app())).toMatchObject({ draft: { file: 'procedures/T-2.md' } });
});

test('turning the page turns the choice with it', async () => {
  const drafts = Array.from({ length: 20 }, (_, n) => ({ ...draftOf(smallProcedure), file: `procedures/T-${n}.md` }));
  const desk = await (await workroom(smallProcedure)).program({ home: 'desk', desk: { drafts } });
  await line(desk, 'vera');
  await move(desk, { move: 'page down' });
  expect(desk.app()).toMatchObject({ chosen: 8, scroll: 0 });
  await move(desk, { move: 'page up' }, { move: 'page up' });
  expect(desk.app()).toMatchObject({ chosen: 0, scroll: 0 });
});

test('the help leads back to what it was opened over', async () => {
  const desk = await deskOf(await workroom(smallProcedure));
  await line(desk, 'vera');
  await move(desk, down);
  await order(desk, 'reading');
  await order(desk, 'keys');
  await move(desk, { move: 'escape' });
  expect(desk.app().layer).toEqual({ layer: 'draft', file: 'procedures/T-1.md', shows: 'reading' });
  await move(desk, { move: 'escape' });
  expect(chosenRow(desk.app())?.row).toBe('draft');
});

test('drafts of one id, and of none, are told apart by their files', async () => {
  const none = { ...draftOf(smallProcedure).procedure, id: '' as never };
  const drafts = [
    draftOf(smallProcedure),
    { ...draftOf(smallProcedure), file: 'procedures/T-1-copy.md' },
    { ...draftOf(smallProcedure), file: 'procedures/torn.md', procedure: none },
  ];
  const desk = await (await workroom(smallProcedure)).program({ home: 'desk', desk: { drafts } });
  await line(desk, 'vera');
  const words = deskRows(desk.app())
    .slice(1)
    .map((row) => rowWords(desk.app(), row));
  expect(words.map(({ name, about }) => `${name} ${about}`)).toEqual([
    'T-1 T-1.md  Small lining',
    'T-1 T-1-copy.md  Small lining',
    'torn.md Small lining',
  ]);
});

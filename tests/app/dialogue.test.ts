import { expect, test } from 'vitest';
import type { App } from '../../src/app/app.ts';
import { asked, heard } from '../../src/app/dialogue.ts';
import { told } from '../../src/app/told.ts';
import type { PinRule } from '../../src/bundle/signature.ts';
import { smallProcedure, workroom } from './workroom.ts';

/** Speaks the lines one by one, lets so many seconds pass where there is a number, and answers all that was printed, prompts and all, from before the first line to after the last. */
async function session(
  markdown: string,
  lines: readonly (string | number)[],
  rule: PinRule = 'nobody',
  of: Partial<App> = {},
): Promise<string> {
  const room = await workroom(markdown, { pin: rule });
  const program = await room.program(of);
  let shown: App | null = null;
  let printed = '';
  const ask = (): void => {
    const question = asked(program.app(), shown);
    printed += `${question.lines.map((line) => `${line}\n`).join('')}${question.prompt}`;
    shown = program.app();
  };
  ask();
  for (const line of lines) {
    if (typeof line === 'number') {
      room.clock.pass(line);
      continue;
    }
    printed += `${line}\n`;
    const before = program.app();
    const what = heard(before, line, { now: room.clock.now(), offsetAt: () => room.clock.now().offset });
    if ('news' in what) program.tell(what.news);
    await program.settled();
    printed += ('print' in what ? what.print : told(program.app(), before)).map((each) => `${each}\n`).join('');
    ask();
  }
  return printed;
}

const start = ['Ines', 'B-1'];
const toTheReading = [...start, '4', 'match', '', ''];

test('every question ends with a sign that it is one', async () => {
  const printed = await session(smallProcedure, [...toTheReading, '312', '312', 'vera']);
  const prompts = printed.split('\n').filter((line) => line.includes(' > '));
  expect(prompts).toHaveLength(10);
});

test('a value is understood, and one out of its limit says by how much and what can be done', async () => {
  const printed = await session(smallProcedure, [...toTheReading, '31,2 cm', '311,5', 'strike wrong place', '316']);
  expect(printed).toContain('✓ 312 mm (31,2 cm)');
  expect(printed).toContain('✓ 311.5 mm (311,5)');
  expect(printed).toContain('OUT OF LIMIT: 316 mm is 2.5 mm over 313.5.');
  expect(printed).toContain('measure again, or go back REASON, or hold REASON');
});

test('orders: note, strike, hold, settle question by question, back', async () => {
  const printed = await session(smallProcedure, [
    ...toTheReading,
    'note bobbin changed',
    '312',
    'strike wrong place',
    'hold edge torn',
    'settle',
    'vera',
    'rework',
    '',
    'patch it',
    'back',
  ]);
  for (const said of [
    'Noted.',
    'Struck.',
    'ON HOLD H-001, by Ines: edge torn',
    'Back to which step?',
    'H-001 is settled: rework.',
    'struck: wrong place',
    'asked again',
  ])
    expect(printed).toContain(said);
});

test('a piece that is not in the kit is refused where it is asked for, and a recut of a recut gets the next name', async () => {
  const kitted = smallProcedure.replace('\n---\n', '\nkit:\n  A: panel\n  C: panel, aft\n---\n');
  const settled = (piece: string) => ['settle', 'vera', 'recut', piece, '', '', '1', '1', 'torn'];
  const printed = await session(kitted, [
    ...start,
    'hold torn',
    ...settled('c').toSpliced(3, 0, 'xx'),
    'hold torn again',
    ...settled('c-r1'),
  ]);
  expect(printed).toContain('The kit of B-1 has no piece xx: name one of A, C.');
  expect(printed).toContain('Name of the new piece [C-R1]');
  expect(printed).toContain('Name of the new piece [C-R2]');
  expect(printed).toContain('H-002 is settled');
});

test('a value that begins like an order is written in quotes', async () => {
  const written = smallProcedure.replace('- [ ] Shade ____ (**match** / lighter / darker)', '- [ ] Roll ____');
  const printed = await session(written, [...start, '4', '"hold 5"']);
  expect(printed).toContain('✓ hold 5');
});

test('out of a question with never mind; leave pauses', async () => {
  const printed = await session(smallProcedure, [...start, 'hold', 'never mind', 'leave']);
  expect(printed).toContain('What is wrong? > never mind');
  expect(printed).toContain('B-1 is left, and can be taken up again.');
});

test('handing over by name', async () => {
  expect(await session(smallProcedure, [...start, 'hands over tom'])).toContain('B-1 is handed over to Tomas.');
});

test('a quoted answer answers the question that is open, not the point behind it', async () => {
  const printed = await session(smallProcedure, [...start, 'hold', '"torn seam"']);
  expect(printed).toContain('ON HOLD H-001, by Ines: torn seam');
});

test('a signature asks for the PIN in a line of its own, and never mind lets it be', async () => {
  const lines = [
    ...toTheReading,
    '312',
    '312',
    'vera',
    '7305',
    '7306',
    '7305',
    '7305',
    'hold seam',
    'settle',
    'vera',
    '1',
    '',
    'x',
  ];
  const printed = await session(smallProcedure, [...lines, '7304', 'never mind'], 'supervisors');
  for (const said of [
    'Vera signs: witnessed. Vera has no PIN yet and chooses one',
    'New PIN of Vera > 7305',
    'The same PIN once more > 7306',
    'The two were not the same',
    'Vera signs: settled H-001, rework.',
    'That is not the PIN of Vera: type it again.',
    'PIN of Vera > never mind',
    'Why so? > ',
  ])
    expect(printed).toContain(said);
  expect(printed).not.toContain('H-001 is settled');
});

test('a line that comes after the station locked is neither obeyed nor lost', async () => {
  const lines = [...toTheReading, 600, '316', 'zoe', 'ines', '312'];
  const printed = await session(smallProcedure, lines, 'nobody', { lockAfter: 10 });
  for (const said of [
    'LOCKED. Ines is on, at B-1, set 1 of 2, step 2 Sew the sleeve. Nothing is lost: it goes on where it stood.',
    'Who is here? Name or badge > zoe',
    'Nobody here is called zoe',
    'Ines is back: everything is as it was.',
    'Before the station locked you had typed “316”: type it again if it still holds.',
    '✓ 312 mm',
  ])
    expect(printed).toContain(said);
  expect(printed).not.toContain('OUT OF LIMIT');
  const other = await session(smallProcedure, [...toTheReading, 600, '316', 'tomas', 'leave'], 'nobody', {
    lockAfter: 10,
  });
  expect(other).toContain('Tomas is signed on. B-1 is left by Ines');
  expect(other).not.toContain('Before the station locked');
});

test('a PIN that comes after the station locked is not repeated', async () => {
  const lines = [...start, 'hold seam', 'settle', 'vera', '1', '1', '', 'x', 600, '7305', 'ines'];
  const printed = await session(smallProcedure, lines, 'supervisors', { lockAfter: 10 });
  expect(printed).toContain('New PIN of Vera > 7305\nLOCKED.');
  expect(printed.split('7305')).toHaveLength(2);
});

test('a step that asks for more than the sewer does alone asks who stands by', async () => {
  const skilled = smallProcedure.replace('- Cannot be undone', '- Cannot be undone\n- Needs skill: sleeve to line');
  const printed = await session(skilled, ['tomas', 'B-1', '4', 'match', 'tomas', 'vera', 'ines', '']);
  for (const said of [
    'This step needs sleeve to line, which you do at level 0, none. Ines may stand by.',
    'Who stands by? Name or badge > tomas',
    'Nobody stands by for themselves: name Ines.',
    'Vera does not do sleeve to line alone: name Ines.',
    'WARNING (enter: read) > ',
  ])
    expect(printed).toContain(said);
});

test('with nothing on hold, settling is refused before anything is asked', async () => {
  const printed = await session(smallProcedure, [...start, 'settle']);
  expect(printed).toContain('settle\nB-1 is not on hold: go on.');
  expect(printed).not.toContain('Who settles it?');
});

test('a bundle that is finished is not said to wait, however the dialogue ends', async () => {
  const room = await workroom(smallProcedure.replace(/\n## Sew[\s\S]*/, '\n'));
  const program = await room.program();
  for (const typed of [...start, '4', 'match', '2']) {
    const what = heard(program.app(), typed, { now: room.clock.now(), offsetAt: () => room.clock.now().offset });
    if ('news' in what) program.tell(what.news);
    await program.settled();
  }
  program.tell({ news: 'move', move: { move: 'order', order: 'quit' } });
  await program.settled();
  expect(program.app()).toMatchObject({ ended: 0, message: { text: 'B-1 is finished, and in the ledger.' } });
});

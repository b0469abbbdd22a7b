import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { asked } from '../../src/app/dialogue.ts';
import { modeOf } from '../../src/app/mode.ts';
import type { Move } from '../../src/app/move.ts';
import type { AppStore } from '../../src/app/store.ts';
import type { StepId } from '../../src/base/brand.ts';
import { pageOf } from '../../src/screens/page-of.ts';
import { page } from '../../src/widgets/page.ts';
import { rowText } from '../../src/widgets/row.ts';
import { smallProcedure, workroom } from './workroom.ts';

const press = async (program: AppStore, ...moves: readonly Move[]): Promise<void> => {
  for (const move of moves) program.tell({ news: 'move', move });
  await program.settled();
};
const line = (program: AppStore, text: string): Promise<void> =>
  press(program, { move: 'type', text }, { move: 'enter' });
const enter: Move = { move: 'enter' };

/** Ines before the sleeve, cautions read; its seam takes 6 m, and a full bobbin holds 30 m. */
async function atTheSleeve(takes: Fraction | null = new Fraction(6000)) {
  const thread = { full: new Fraction(30_000), takes: new Map([['sew-the-sleeve' as StepId, takes]]) };
  const room = await workroom(smallProcedure, { thread });
  const program = await room.program();
  for (const word of ['ines', 'b-1', '4']) await line(program, word);
  await press(program, { move: 'type', text: '1' }, enter);
  await press(program, enter);
  return { room, program };
}

test('before a seam that cannot be undone the bobbin is asked for, and enter fits a full one', async () => {
  const { program } = await atTheSleeve();
  expect(program.app().play?.next).toMatchObject({ want: 'bobbin', left: null });
  expect(modeOf(program.app())).toBe('value');
  await press(program, enter);
  expect(program.app().play?.next).toMatchObject({ want: 'point', point: { id: 'edges-on-the-line' } });
  expect(program.app().message?.text).toBe('Bobbin: 30 m from here on.');
  expect(program.app().room.bobbin).toBe('30000');
});

test('where nobody could reckon what the step takes, nothing is asked, and the step says so', async () => {
  const { program } = await atTheSleeve(null);
  expect(program.app().play?.next).toMatchObject({ want: 'point' });
  const said = 'Bobbin: what this step takes could not be reckoned; look at it before you sew.';
  expect(asked(program.app(), null).lines).toContain(said);
  expect(
    page(pageOf(program.app(), { columns: 120, rows: 40 }))
      .map(rowText)
      .join('\n'),
  ).toContain(said);
  for (const text of ['', '312', '312', 'vera']) await (text === '' ? press(program, enter) : line(program, text));
  expect(program.app().room.bobbin).toBeNull();
});

test('a step that takes more than a full bobbin is begun on one, and says where it is changed', async () => {
  const said = 'A full bobbin holds 30 m: change it between two seams, never within one.';
  const { program } = await atTheSleeve(new Fraction(34_000));
  expect(asked(program.app(), null).lines).toContain(said);
  await press(program, enter);
  expect(program.app().play?.next).toMatchObject({ want: 'point' });
  expect(asked((await atTheSleeve(new Fraction(30_000))).program.app(), null).lines).not.toContain(said);
});

test('a bobbin is not undone, and what to do instead is said', async () => {
  const { program } = await atTheSleeve();
  const said = 'A bobbin is not taken back: say again how much is on it (w, or bobbin 12.5).';
  await line(program, '9');
  await press(program, { move: 'order', order: 'undo' });
  expect(program.app().message?.text).toBe(said);
  program.tell({ news: 'intent', intent: { intent: 'undo' } });
  await program.settled();
  expect(program.app().message?.text).toBe(said);
  expect(program.app().room.bobbin).toBe('9000');
  await press(program, { move: 'order', order: 'bobbin' });
  await line(program, 'twelve');
  expect(modeOf(program.app())).toBe('form words');
  await line(program, '12');
  expect(program.app().room.bobbin).toBe('12000');
});

test('the metres that are on it are typed, and too few of them are asked about again', async () => {
  const { program } = await atTheSleeve();
  await line(program, '4,5');
  expect(program.app().play?.next).toMatchObject({ want: 'bobbin', left: new Fraction(4500) });
  await line(program, 'much');
  expect(program.app().message?.tone).toBe('refusal');
  await line(program, '650 cm');
  expect(program.app().play?.next).toMatchObject({ want: 'point' });
  expect(program.app().room.bobbin).toBe('6500');
});

test('what the step took is off the bobbin when it is sewn, and the last answer can still be undone', async () => {
  const { program } = await atTheSleeve();
  for (const text of ['', '', '312', '312', 'vera']) await (text === '' ? press(program, enter) : line(program, text));
  expect(program.app().room.bobbin).toBe('24000');
  await press(program, { move: 'order', order: 'undo' });
  expect(program.app().play?.next).toMatchObject({ want: 'point', point: { id: 'looked-over' } });
});

test('one key says that another bobbin is in, at any point', async () => {
  const { program } = await atTheSleeve();
  await press(program, enter, { move: 'order', order: 'bobbin' });
  expect(modeOf(program.app())).toBe('form words');
  await line(program, '12.5');
  expect(program.app().room.bobbin).toBe('12500');
  await press(program, { move: 'order', order: 'bobbin' }, enter);
  expect(program.app().room.bobbin).toBe('30000');
});

test('no more than a full one is on a bobbin: a slip of the finger would silence the question for long', async () => {
  const { program } = await atTheSleeve();
  await line(program, '300');
  expect(program.app().message?.text).toBe('A full bobbin holds 30 m here: type what is on the one in the machine.');
  expect(program.app().room.bobbin).toBeNull();
  await line(program, '30');
  expect(program.app().room.bobbin).toBe('30000');
});

test('a ticket that is scanned at the question is no metres, whatever its number', async () => {
  const { program } = await atTheSleeve();
  await press(program, { move: 'type', text: '9' }, { move: 'scan', text: '0012' });
  expect(program.app().message?.text).toContain('there is nothing to scan here');
  expect(program.app().play?.next).toMatchObject({ want: 'bobbin' });
  expect([program.app().room.bobbin, program.app().field]).toEqual([null, '9']);
  await press(program, enter, { move: 'order', order: 'bobbin' }, { move: 'scan', text: '0012' });
  expect(program.app().room.bobbin).toBe('9000');
  expect(modeOf(program.app())).toBe('form words');
});

test.each(['0', '-5', '1e3', '٣', '3 kg', '1,500', '30,001', '1/0', 'full', '--'])(
  '%s metres are on no bobbin',
  async (said) => {
    const { program } = await atTheSleeve();
    await line(program, said);
    expect(program.app().message?.tone).toBe('refusal');
    expect(program.app().play?.next).toMatchObject({ want: 'bobbin' });
    expect(program.app().room.bobbin).toBeNull();
  },
);

test.each(['', '12.5'])('where nobody reckons with bobbins the order says so: %j', async (metres) => {
  const room = await workroom(smallProcedure);
  const program = await room.program();
  for (const word of ['ines', 'b-1']) await line(program, word);
  program.tell({ news: 'intent', intent: { intent: 'bobbin', metres } });
  await program.settled();
  expect(program.app().message?.text).toBe('Nobody reckons with bobbins here: go on without.');
  expect(program.app().room.bobbin).toBeNull();
});

test('another station’s program sees what is left', async () => {
  const { room, program } = await atTheSleeve();
  await line(program, '9');
  const other = await room.program();
  expect(other.app().room.bobbin).toBe('9000');
});

import { expect, test } from 'vitest';
import { differenceLine } from '../../src/app/difference-words.ts';
import { modeOf } from '../../src/app/mode.ts';
import type { Move, Order } from '../../src/app/move.ts';
import type { AppStore } from '../../src/app/store.ts';
import { allChecks } from '../../src/bundle/bundle.ts';
import { smallProcedure, workroom } from './workroom.ts';

/** Types into the open field and presses enter, as often as there are words; an empty word is enter alone. */
async function enter(program: AppStore, ...words: readonly string[]): Promise<void> {
  for (const word of words) {
    if (word !== '') move(program, { move: 'type', text: word });
    move(program, { move: 'enter' });
    await program.settled();
  }
}
const move = (program: AppStore, one: Move): void => program.tell({ news: 'move', move: one });
async function order(program: AppStore, one: Order): Promise<void> {
  move(program, { move: 'order', order: one });
  await program.settled();
}
/** Ines with B-1 in hand, the kit counted, before the first caution. */
async function atTheCaution() {
  const room = await workroom(smallProcedure);
  const program = await room.program();
  await enter(program, 'ines', 'b-1', '4', '1');
  return { room, program };
}
/** The same, with the caution read and the edges ticked. */
async function atTheReading() {
  const at = await atTheCaution();
  await enter(at.program, '', '');
  return at;
}
const pointAt = (program: AppStore): string => {
  const next = program.app().play?.next;
  return next?.want === 'point' ? `${next.at.set ?? 'all'} ${next.point.text} ${next.place}` : (next?.want ?? 'away');
};

test('a hand signs on by the beginning of the name, takes a ticket in any case of letters, and is where the work is', async () => {
  const { program } = await atTheCaution();
  expect(modeOf(program.app())).toBe('caution');
  expect(program.app().play?.bundle.hand).toBe('OP-02');
});

test('a scanned badge signs on and a scanned ticket opens, wherever the field is', async () => {
  const room = await workroom(smallProcedure);
  const program = await room.program();
  for (const text of ['4711', 'B-1']) {
    move(program, { move: 'scan', text });
    await program.settled();
  }
  expect(pointAt(program)).toBe('all Pieces 1');
});

test('an answer that is none stays in the field, with a sentence', async () => {
  const { program } = await atTheReading();
  await enter(program, 'abc');
  expect(program.app()).toMatchObject({ field: 'abc', message: { tone: 'refusal' } });
  expect(pointAt(program)).toBe('1 Line to edge 1');
});

test('a reading out of its limit rings once and is asked again; both stay in the ledger', async () => {
  const { room, program } = await atTheReading();
  await enter(program, '316', '312');
  expect(room.bells()).toBe(1);
  expect(pointAt(program)).toBe('1 Line to edge 2');
  const verdicts = allChecks(program.app().play?.bundle ?? ({ checks: new Map() } as never)).map(
    ({ verdict }) => verdict,
  );
  expect(verdicts.slice(-2)).toEqual(['above', 'within']);
});

test('the way that If out: names opens only with a value outside', async () => {
  const { program } = await atTheReading();
  await order(program, 'go back');
  expect(modeOf(program.app())).toBe('value');
  await enter(program, '316');
  await order(program, 'go back');
  await enter(program, 'drifted off the line');
  expect(pointAt(program)).toBe('1 Edges on the line 1');
});

test('undo strikes what was just recorded, for five seconds', async () => {
  const { room, program } = await atTheReading();
  await order(program, 'undo');
  expect(pointAt(program)).toBe('1 Edges on the line 1');
  await enter(program, '');
  room.clock.pass(5);
  program.tell({ news: 'second' });
  await order(program, 'undo');
  expect(pointAt(program)).toBe('1 Line to edge 1');
});

test('looking back strikes an older entry with a reason, and the point is asked again', async () => {
  const { program } = await atTheReading();
  await order(program, 'look back');
  move(program, { move: 'down' });
  await order(program, 'strike');
  await enter(program, 'wrong swatch');
  expect(pointAt(program)).toBe('all Shade 1');
});

test('a hold stops the bundle; a badge on the hold screen begins the settling', async () => {
  const { program } = await atTheReading();
  await enter(program, '316');
  await order(program, 'hold');
  await enter(program, 'line is 4 off');
  expect(modeOf(program.app())).toBe('hold');
  move(program, { move: 'scan', text: 'V-01' });
  await enter(program, '3', '1 panel', '2027-01-31', 'does not show');
  expect(pointAt(program)).toBe('1 Line to edge 2');
  await enter(program, '312');
  expect(pointAt(program)).toBe('1 looked over 1');
});

test('nothing is ticked by a scan on a screen that has nothing to scan', async () => {
  const { program } = await atTheCaution();
  const before = program.app().play?.bundle;
  move(program, { move: 'scan', text: 'B-2' });
  await program.settled();
  expect(program.app().play?.bundle).toBe(before);
  expect(program.app().message?.text).toContain('B-2');
});

test('a scan at an empty number field is the whole answer', async () => {
  const { program } = await atTheReading();
  move(program, { move: 'scan', text: '312.5' });
  await program.settled();
  expect(pointAt(program)).toBe('1 Line to edge 2');
});

test('leaving pauses the bundle; the same hand goes on where it was, in another program', async () => {
  const { room, program } = await atTheReading();
  await order(program, 'leave');
  expect(program.app().play).toBeNull();
  const second = await room.program();
  await enter(second, 'Ines', 'B-1');
  expect(pointAt(second)).toBe('1 Line to edge 1');
});

test('quitting in mid-bundle pauses it and ends with 0; on hold with 1', async () => {
  const { program } = await atTheReading();
  await order(program, 'quit');
  await expect(program.over).resolves.toBe(0);
  const held = (await atTheReading()).program;
  await order(held, 'hold');
  await enter(held, 'thread ran out');
  await order(held, 'quit');
  await expect(held.over).resolves.toBe(1);
});

test('a hold that another program settles shows itself within a second', async () => {
  const { room, program } = await atTheReading();
  await order(program, 'hold');
  await enter(program, 'cannot find the notch');
  const desk = await room.program();
  await enter(desk, 'Vera', 'B-1');
  await order(desk, 'settle');
  await enter(desk, 'Vera', '1', '', 'found it');
  await order(desk, 'leave');
  program.tell({ news: 'second' });
  await program.settled();
  expect(pointAt(program)).toBe('resuming');
});

test('the same hand reads what changed before the first bundle on a new revision', async () => {
  const { room, program } = await atTheReading();
  await order(program, 'leave');
  await room.release(smallProcedure.replace('312 ±1.5', '312 ±1'));
  await room.ledger.attempt(null, {
    do: 'make ticket',
    hand: 'room' as never,
    ticket: 'B-2' as never,
    procedure: 'T-1' as never,
    sets: 1,
    rolls: [],
  });
  await enter(program, 'B-2');
  expect(modeOf(program.app())).toBe('changes');
  expect(program.app().play?.changes.map((each) => differenceLine(each))).toEqual([
    'step 2, limit tightened: Line to edge: 310.5 to 313.5 mm → 311 to 313 mm',
  ]);
  await enter(program, '');
  expect(pointAt(program)).toBe('all Pieces 1');
});

test('news told while an effect is on its way is kept in order', async () => {
  const room = await workroom(smallProcedure);
  const program = await room.program();
  for (const word of ['Ines', 'B-1', '4', '1']) {
    move(program, { move: 'type', text: word });
    move(program, { move: 'enter' });
  }
  await program.settled();
  expect(modeOf(program.app())).toBe('caution');
});

test('a broken machine ends the program with its sentence', async () => {
  const room = await workroom(smallProcedure);
  const program = await room.program();
  await enter(program, 'Ines');
  room.store.append = () => Promise.reject(new Error('the disk is full'));
  await expect(enter(program, 'B-1')).rejects.toThrow('the disk is full');
  await expect(program.over).rejects.toThrow('the disk is full');
});

test('a key is drawn once, when all that came of it is done; a second that shows nothing is not drawn', async () => {
  const { program } = await atTheReading();
  let drawn = 0;
  program.subscribe(() => drawn++);
  await enter(program, '312');
  // One for the typing, one for enter with its entry.
  expect(drawn).toBe(2);
  program.tell({ news: 'second' });
  await program.settled();
  // The undo is still open, so its time is shown.
  expect(drawn).toBe(3);
});

test('at a station where nothing happens, nothing is drawn', async () => {
  const room = await workroom(smallProcedure);
  const program = await room.program();
  let drawn = 0;
  program.subscribe(() => drawn++);
  program.tell({ news: 'second' });
  await program.settled();
  expect(drawn).toBe(0);
});

test('a form says at once what is no answer, and asks its last question again when the whole is refused', async () => {
  const { program } = await atTheReading();
  await enter(program, '316');
  await order(program, 'hold');
  await enter(program, 'edge torn');
  await order(program, 'settle');
  await enter(program, 'Tomas');
  expect(program.app().message?.text).toContain('this takes a supervisor');
  program.tell({ news: 'move', move: { move: 'escape' } });
  await order(program, 'settle');
  await enter(program, 'Vera', '3', '1 panel', '2027-02-30');
  expect(program.app().message?.text).toContain('last day');
  program.tell({ news: 'move', move: { move: 'erase' } });
  for (let i = 0; i < 10; i++) program.tell({ news: 'move', move: { move: 'erase' } });
  await enter(program, '2027-02-28', 'good enough');
  expect(modeOf(program.app())).not.toBe('hold');
});

test('what is refused at the end of a form can be asked for anew', async () => {
  const { room, program } = await atTheReading();
  await order(program, 'hand over');
  await room.ledger.attempt(null, { do: 'retire', hand: 'V-01' as never, who: 'OP-03' as never });
  await enter(program, 'Tomas');
  expect(modeOf(program.app())).toBe('form words');
  expect(program.app().message?.text).toContain('retired');
  await enter(program, 'Vera');
  expect(program.app().play).toBeNull();
});

test('after a refusal what is typed or scanned next is a new answer; rubbing out mends the old one', async () => {
  const { program } = await atTheReading();
  await enter(program, '3121.5.', '312');
  expect(pointAt(program)).toBe('1 Line to edge 2');
  await enter(program, '312x');
  move(program, { move: 'erase' });
  await enter(program, '.5');
  expect(pointAt(program)).toBe('1 looked over 1');
  await enter(program, 'Tomas');
  move(program, { move: 'scan', text: 'V-01' });
  await program.settled();
  expect(pointAt(program)).toBe('2 Edges on the line 1');
});

test('a number meant for another screen is neither a caution read nor a choice', async () => {
  const { program } = await atTheCaution();
  await enter(program, '312');
  expect(pointAt(program)).toBe('caution');
  await enter(program, '');
  expect(pointAt(program)).toBe('1 Edges on the line 1');
  const choosing = await (await workroom(smallProcedure)).program();
  await enter(choosing, 'Ines', 'B-1', '4');
  for (const digit of '312') move(choosing, { move: 'type', text: digit });
  await enter(choosing, '');
  expect(pointAt(choosing)).toBe('all Shade 1');
  await enter(choosing, '1');
  expect(pointAt(choosing)).toBe('caution');
});

test('what is typed for one blank never goes to another that somebody else has opened', async () => {
  const { room, program } = await atTheReading();
  move(program, { move: 'type', text: '312' });
  const other = await room.program();
  await enter(other, 'Ines', 'B-1', '311');
  await enter(program, '');
  expect(pointAt(program)).toBe('1 Line to edge 2');
  expect(program.app().field).toBe('');
});

test('a bundle that somebody else has taken can still be left, and the program ended', async () => {
  const { room, program } = await atTheReading();
  await room.ledger.attempt('B-1' as never, { do: 'resume', hand: 'V-01' as never });
  await order(program, 'quit');
  await expect(program.over).resolves.toBe(0);
});

test('a device gives a whole value, whatever a hand had begun to type before it', async () => {
  const { program } = await atTheReading();
  for (const letter of '2312.5') move(program, { move: 'type', text: letter });
  move(program, { move: 'scan', text: '312.5' });
  await program.settled();
  expect(allChecks(program.app().play?.bundle as never).at(-1)).toMatchObject({ typed: '312.5', verdict: 'within' });
});

test('the set that is chosen is the set that is scrapped, whatever its place in the list', async () => {
  const room = await workroom(smallProcedure);
  await room.ledger.attempt(null, {
    do: 'make ticket',
    hand: 'room' as never,
    ticket: 'B-3' as never,
    procedure: 'T-1' as never,
    sets: 3,
    rolls: [],
  });
  const program = await room.program();
  await enter(program, 'Ines', 'B-3', '4', '1');
  for (const [downs, scrapped] of [
    [0, 1],
    [1, 3],
  ] as const) {
    await order(program, 'hold');
    await enter(program, 'hole on the face');
    await order(program, 'settle');
    await enter(program, 'Vera', '4');
    for (let i = 0; i < downs; i++) move(program, { move: 'down' });
    await enter(program, '');
    move(program, { move: 'down' });
    await enter(program, '', 'beyond mending');
    expect([...(program.app().play?.bundle.scrapped ?? [])]).toContain(scrapped);
  }
  expect([...(program.app().play?.bundle.scrapped ?? [])]).toEqual([1, 3]);
});

test('a level that is entered elsewhere ends the asking for a second person', async () => {
  const room = await workroom(
    smallProcedure.replace('- Cannot be undone', '- Cannot be undone\n- Needs skill: binding'),
  );
  const program = await room.program();
  await enter(program, 'ines', 'b-1', '4', '1');
  expect(program.app().play?.next).toMatchObject({ want: 'helping', level: 0 });
  const skill = { skill: 'binding', level: 3 } as const;
  await room.ledger.attempt(null, { do: 'set skill', hand: 'V-01' as never, who: 'OP-02' as never, ...skill });
  program.tell({ news: 'second' });
  await program.settled();
  expect(modeOf(program.app())).toBe('caution');
});

import { expect, test } from 'vitest';
import { press } from '../screens/lining.ts';
import { smallProcedure, workroom } from './workroom.ts';

/** Ines before the choice of a shade. */
async function atTheChoice() {
  const program = await (await workroom(smallProcedure)).program();
  await press(program, '"ines" enter "b-1" enter "4" enter');
  return program;
}

test('letters at a list are shown with what is wanted, choose nothing, and can be rubbed out', async () => {
  const program = await atTheChoice();
  await press(program, '"Z-3"');
  const text = '“Z-3”: Choose with one number, 1 to 3, or the arrow keys.';
  expect(program.app()).toMatchObject({ chosen: -1, message: { tone: 'refusal', text } });
  await press(program, 'backspace backspace');
  expect(program.app().message?.text).toContain('“Z”');
  await press(program, 'backspace');
  expect(program.app()).toMatchObject({ chosen: -1, field: '', message: null });
  await press(program, '1 enter');
  expect(program.app().play?.next).toMatchObject({ want: 'caution' });
});

test('enter behind what is no choice empties the field, also in a form', async () => {
  const program = await atTheChoice();
  await press(program, 'x enter');
  expect(program.app()).toMatchObject({ field: '', message: { tone: 'refusal' } });
  await press(program, 'h "one strap short" enter s "vera" enter x 2 enter');
  expect(program.app()).toMatchObject({ field: '', message: { tone: 'refusal' } });
  await press(program, '2 enter');
  expect(program.app().layer).toMatchObject({ form: { answers: { how: 'recut' } } });
});

import { expect, test } from 'vitest';
import type { Digest } from '../../src/base/brand.ts';
import { pictureBeside } from '../../src/screens/picture-beside.ts';
import { workroom } from '../app/workroom.ts';
import { readSample } from '../picture/read-sample.ts';
import { lining, press } from './lining.ts';

test('a picture is drawn once for many frames, and anew for another room', async () => {
  const room = await workroom(lining);
  const program = await room.program();
  await press(program, '"ines" enter "b-1" enter "22" enter "R-318" enter 1 enter "1819" enter "1817" enter enter');
  await press(program, 'enter');
  room.clock.pass(720);
  await press(program, 'enter enter enter');
  const { play } = program.app();
  if (!play) throw new Error('no bundle');
  const drawing = { is: 'drawing', digest: 'e'.repeat(64) as Digest, drawing: readSample('lining'), scale: 'to scale' };
  const app = {
    ...program.app(),
    pictures: { of: play.procedure, found: new Map([['../media/lining.svg', drawing as never]]) },
  };
  const drawn = (columns: number) => pictureBeside(app, { columns: 120, rows: 40 })?.draw({ columns, rows: 10 });
  expect(drawn(40)).toHaveLength(10);
  expect(drawn(40)).toBe(drawn(40));
  expect(drawn(41)).not.toBe(drawn(40));
});

import { expect, test } from 'vitest';
import { size } from '../../src/commands/size.ts';
import { tempFolder } from '../storage/temp-folder.ts';
import { called } from './demo-room.ts';

const sized = (words: string, json = false) =>
  called((io) => Promise.resolve(size(words.split(' '), { json }, io)), tempFolder());

test.each([
  ['Tex 70', { tex: '70', denier: '630', Nm: '14.3', ticket: '42.9' }],
  ['70 tex', { dtex: '700' }],
  ['630 denier', { tex: '70' }],
  ['ticket 40', { tex: '75' }],
  // As trade pages on thread numbers print them.
  ['Nm 80/2', { tex: '25', ticket: '120' }],
  ['60/4 nm', { ticket: '45' }],
  ['Ne 30/3', { Ne: '10', 'cotton ticket': '30' }],
  ['Ne 8.4', { tex: '70.3' }],
  ['needle 110', { 'needle, numeric': '18', blade: '1.1 mm' }],
  ['needle 22', { 'needle, metric': '140 or 150' }],
  ['stitch 4 mm', { 'stitches in 100 mm': '25', 'stitches in 25 mm': '6.3', 'stitches to an inch': '6.4' }],
  ['needle 90/14', { 'needle, metric': '90', 'needle, numeric': '14', blade: '0.9 mm' }],
  ['needle 22 / 150', { 'needle, metric': '150', 'needle, numeric': '22' }],
  ['needle Nm 110', { 'needle, numeric': '18' }],
  ['stitch 4.0 mm', { 'stitches in 100 mm': '25' }],
  ['stitch 4,5mm', { 'stitches in 100 mm': '22.2' }],
  ['stitch 1/8 in', { 'stitches to an inch': '8' }],
  ['stitch 10 spi', { 'stitch length': '2.54 mm' }],
])('%s is said in every way', async (words, said) => {
  const { code, out } = await sized(words, true);
  expect(code).toBe(0);
  expect(JSON.parse(out)).toMatchObject(said);
});

test.each([
  '',
  '70',
  'Tex',
  'Tex 0',
  'Tex 30/2',
  'ticket 80/2',
  'Nm 80/0',
  'Nm 80/',
  'Tex -3',
  'needle 500',
  'needle 90/16',
  'needle 0x6e',
  'needle',
  'stitch 0 mm',
  'stitch 4 kg',
  'stitch 4.5.mm',
  'wool 3',
])('what is no size is refused in a sentence: %j', async (words) =>
  expect(await sized(words)).toMatchObject({ code: 2, out: '', err: expect.stringMatching(/^walkfoot: .+\.\n$/) }),
);

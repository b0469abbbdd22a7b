import { describe, expect, test } from 'vitest';
import { pageOf } from '../../src/screens/page-of.ts';
import { page } from '../../src/widgets/page.ts';
import { type Row, rowText, type Style } from '../../src/widgets/row.ts';
import { lining } from './lining.ts';
import { play, roomFor, stories } from './stories.ts';

const rowsOf = async (name: string): Promise<readonly Row[]> => {
  const story = stories[name];
  if (!story) throw new Error(`no story ${name}`);
  const app = (await play(story, await roomFor(story, lining))).app();
  return page(pageOf(app, { columns: 80, rows: 24 }));
};
const has = (row: Row, style: Style): boolean => row.some((part) => part.style === style && part.text.trim() !== '');
const names = Object.keys(stories);

describe.each(names)('%s', (name) => {
  test('safety colours are for cautions, the alarm is for readings outside', async () => {
    const rows = await rowsOf(name);
    const uses = (style: Style): boolean => rows.some((row) => has(row, style));
    expect(uses('warning')).toBe(/^(rehearsal-|big-)?caution$/.test(name));
    expect(uses('notice')).toBe(name === 'notice');
    expect(uses('danger') || uses('caution')).toBe(false);
    expect(uses('bad')).toBe(name.endsWith('outside'));
  });

  test('what is bright stands together: one next action', async () => {
    const rows = await rowsOf(name);
    // The needle of the seam is bright too. An empty row may part the paragraphs of one action.
    const action = rows.flatMap((row, at) => (has(row, 'bright') && !rowText(row).includes('▼') ? [at] : []));
    for (const [index, at] of action.entries()) if (index > 0) expect(at - (action[index - 1] ?? 0)).toBeLessThan(5);
  });
});

test('a reading outside shouts in words, by how much, from edge to edge, whatever the colours', async () => {
  const shout = (await rowsOf('outside')).find((row) => rowText(row).includes('OUT OF LIMIT'));
  expect(shout && rowText(shout).trim()).toBe('✗ OUT OF LIMIT: 316 mm is 2.5 mm over 313.5');
  expect(shout?.filter(({ text }) => text.trim() !== '').map(({ style }) => style)).toEqual(['bad', 'bad']);
});

test('no option looks better than another before one is chosen', async () => {
  const rows = (await rowsOf('choice-outside')).filter((row) => /^ {4,}\d {2}\w/.test(rowText(row)));
  expect(rows).toHaveLength(3);
  for (const row of rows) for (const { style = 'plain' } of row) expect(style).toBe('plain');
});

test('every screen of a rehearsal says that nothing is recorded', async () => {
  for (const [name, story] of Object.entries(stories).filter(([each]) => !each.startsWith('changes'))) {
    const room = await roomFor(story, lining);
    const { app } = await play({ ...story, as: { ...story.as, purpose: 'rehearse' } }, room);
    const rows = page(pageOf(app(), { columns: 60, rows: 20 })).map(rowText);
    expect(rows[0], name).toContain('REHEARSAL · nothing is recorded');
  }
});

import { describe, expect, test } from 'vitest';
import { columns } from '../../src/base/columns.ts';
import { languages } from '../../src/base/language.ts';
import { pageOf } from '../../src/screens/page-of.ts';
import { page } from '../../src/widgets/page.ts';
import { cleanRow, rowColumns, rowText } from '../../src/widgets/row.ts';
import { loadWords } from '../../src/words/load.ts';
import { lining } from './lining.ts';
import { foreign, play, roomFor, stories } from './stories.ts';

const sizes = [
  { columns: 60, rows: 20 },
  { columns: 80, rows: 24 },
  { columns: 120, rows: 40 },
];

describe.each(languages.filter((language) => language !== 'en'))('%s', (language) => {
  test.each(Object.keys(stories))('%s fits, and its rows are as wide as the terminal counts them', async (name) => {
    const story = stories[name];
    if (!story) throw new Error('no such story');
    const words = await loadWords(language);
    const speaks = { language, words: { room: words, hand: null } };
    const app = (await play(story, await roomFor(story, lining), speaks)).app();
    for (const size of sizes) {
      const rows = page(pageOf(app, size)).map(cleanRow);
      expect(rows).toHaveLength(size.rows);
      for (const row of rows) {
        expect(rowColumns(row)).toBeLessThanOrEqual(size.columns);
        expect(columns(rowText(row))).toBe(rowColumns(row));
      }
      if (size.columns === 120 || !foreign.includes(name)) continue;
      const text = `${rows.map((row) => rowText(row).trimEnd()).join('\n')}\n`;
      await expect(text).toMatchFileSnapshot(`frames/${name}-${language}-${size.columns}x${size.rows}.txt`);
    }
  });
});

test('whoever strikes a tick reads of it in their language', async () => {
  const words = await loadWords('es');
  const story = { keys: '"ines" enter "b-1" enter enter esc b x' };
  const ticked = lining.replace('- [ ] Pieces in the bundle ____ pcs (22)', '- [ ] Piezas contadas');
  const app = (
    await play(story, await roomFor(story, ticked), { language: 'es', words: { room: words, hand: null } })
  ).app();
  const rows = page(pageOf(app, { columns: 80, rows: 24 })).map(rowText);
  expect(rows.join('\n')).toMatch(/T-1 (?:rev\. )?.*A/);
  expect(rows.join('\n')).toMatch(/hecho.*Piezas contadas/);
  expect(rows.join('\n')).not.toMatch(/done|\brev A\b/);
});

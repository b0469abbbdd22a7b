import { describe, expect, test } from 'vitest';
import { pageOf } from '../../src/screens/page-of.ts';
import type { Size } from '../../src/terminal/open-terminal.ts';
import { Lines } from '../../src/widgets/lines.tsx';
import { page } from '../../src/widgets/page.ts';
import { cleanRow, rowText } from '../../src/widgets/row.ts';
import { inColour, withoutColour } from '../../src/widgets/theme.ts';
import { draw } from '../widgets/draw.tsx';
import { lining } from './lining.ts';
import { play, roomFor, stories } from './stories.ts';

const sizes: readonly Size[] = [
  { columns: 60, rows: 20 },
  { columns: 80, rows: 24 },
  { columns: 120, rows: 40 },
];

describe.each(Object.entries(stories))('%s', (name, story) => {
  test('reads as it should at 60×20, 80×24 and 120×40', async () => {
    const app = (await play(story, await roomFor(story, lining))).app();
    for (const size of sizes) {
      const rows = page(pageOf(app, size)).map((row) => rowText(cleanRow(row)).trimEnd());
      expect(rows).toHaveLength(size.rows);
      await expect(`${rows.join('\n')}\n`).toMatchFileSnapshot(`frames/${name}-${size.columns}x${size.rows}.txt`);
    }
  });
});

const drawn = [
  'station',
  'tick',
  'outside',
  'caution',
  'hold',
  'keys-point',
  'big-outside',
  'rehearsal',
  'desk',
  'desk-draft',
].map((name) => [name, stories[name]] as const);

test.each(drawn)('%s is drawn as it was laid out, in colour and without', async (_, story) => {
  if (!story) throw new Error('no such story');
  const app = (await play(story, await roomFor(story, lining))).app();
  const rows = page(pageOf(app, { columns: 80, rows: 24 }));
  for (const theme of [inColour, withoutColour]) {
    const seen = await draw(<Lines rows={rows} width={80} height={24} theme={theme} />, 80, 24);
    expect(seen.lost).toBe(0);
    expect(seen.lines).toEqual(rows.map((row) => rowText(row).trimEnd()));
  }
});

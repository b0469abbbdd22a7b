import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { App } from '../../src/app/app.ts';
import type { Key } from '../../src/keys/key.ts';
import { pageOf } from '../../src/screens/page-of.ts';
import type { Size } from '../../src/terminal/open-terminal.ts';
import { page } from '../../src/widgets/page.ts';
import { cleanRow, rowColumns, rowText } from '../../src/widgets/row.ts';
import { lining, press, pressKey } from './lining.ts';
import { play, roomFor, stories } from './stories.ts';

const letters = [
  'h',
  'b',
  'n',
  'o',
  'u',
  'r',
  's',
  'x',
  'g',
  'l',
  '?',
  'esc',
  'enter',
  'esc h',
  'esc ?',
  '1 enter',
  '2',
];
const others = [
  'up',
  'down',
  'page-up',
  'page-down',
  'backspace',
  '"15 1/2 in"',
  '"vera" enter',
  '"316" enter',
  '"28" enter',
];
const anyKey: fc.Arbitrary<Key> = fc.oneof(
  fc.record({ key: fc.constant('paste' as const), text: fc.string({ unit: 'binary', maxLength: 30 }) }),
  fc.record({ key: fc.constant('scan' as const), text: fc.string({ unit: 'binary', minLength: 3, maxLength: 30 }) }),
);
const anyDeed = fc.oneof(
  { weight: 9, arbitrary: fc.constantFrom(...letters, ...others) },
  { weight: 1, arbitrary: anyKey },
);
const anySize: fc.Arbitrary<Size> = fc.oneof(
  fc.record({ columns: fc.integer({ min: 1, max: 200 }), rows: fc.integer({ min: 1, max: 60 }) }),
  fc.record({ columns: fc.integer({ min: 40, max: 90 }), rows: fc.integer({ min: 12, max: 26 }) }),
);

const hostile = lining
  .replace('Cabin-top lining, batten sleeves\nsets', `"\\u001b[2J \\u202e漢字 ${'Very long title '.repeat(12)}"\nsets`)
  .replace('Sleeve bore', `${'unbrokenword'.repeat(12)} 幅 Sleeve bore`);

function fits(app: App, size: Size): void {
  const rows = page(pageOf(app, size));
  expect(rows).toHaveLength(size.rows);
  for (const row of rows) {
    expect(rowColumns(row), JSON.stringify(rowText(row))).toBeLessThanOrEqual(size.columns);
    // A row that the last gate has to clean was measured with other letters than it shows.
    expect(rowText(cleanRow(row))).toBe(rowText(row));
  }
}

test.each([
  ['a lining', lining],
  ['a title that is far too long', hostile],
])('whatever is pressed on any screen, the next one of %s fits its terminal exactly, at any size', async (_, text) => {
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...Object.values(stories)),
      fc.array(fc.tuple(anyDeed, anySize, fc.nat(400)), { minLength: 1, maxLength: 25 }),
      async (story, deeds) => {
        const room = await roomFor(story, text);
        const program = await play(story, room);
        for (const [deed, size, seconds] of deeds) {
          room.clock.pass(seconds);
          if (typeof deed === 'string') await press(program, deed);
          else await pressKey(program, deed);
          fits(program.app(), size);
        }
      },
    ),
    { numRuns: 40 },
  );
});

const edges: readonly Size[] = [
  [1, 1],
  [3, 2],
  [39, 11],
  [40, 12],
  [41, 17],
  [59, 19],
  [99, 23],
  [200, 60],
].map(([columns = 0, rows = 0]) => ({ columns, rows }));

test.each(Object.entries(stories))('%s fits at the edges of every layout', async (_, story) => {
  const program = await play(story, await roomFor(story, hostile));
  for (const size of edges) fits(program.app(), size);
});

import { describe, expect, test } from 'vitest';
import { big } from '../../src/widgets/big.ts';
import { field } from '../../src/widgets/field.ts';
import { legend } from '../../src/widgets/legend.ts';
import { Lines } from '../../src/widgets/lines.tsx';
import { page } from '../../src/widgets/page.ts';
import { panel } from '../../src/widgets/panel.ts';
import { prose } from '../../src/widgets/prose.ts';
import { blank, indentRow, leftRight, type Row, span } from '../../src/widgets/row.ts';
import { seam } from '../../src/widgets/seam.ts';
import { withoutColour } from '../../src/widgets/theme.ts';
import { wrapRow } from '../../src/widgets/wrap-row.ts';
import { draw } from './draw.tsx';

interface Size {
  readonly width: number;
  readonly height: number;
}

const keys = [
  { keys: 'enter', words: 'next' },
  { keys: 'h', words: 'hold' },
  { keys: 'b', words: 'look back' },
  { keys: 'p', words: 'picture' },
  { keys: 'n', words: 'note' },
  { keys: 'l', words: 'leave' },
  { keys: '?', words: 'keys' },
];

const indented = (rows: readonly Row[]): readonly Row[] => rows.map((row) => indentRow(row, 1));

function sewing({ width, height }: Size): readonly Row[] {
  const room = width - 2;
  const header = [
    leftRight([span('LIN-2207 rev C · Cabin-top lining')], [span('B-1041 · set 1 of 2 · Ines')], room),
    seam({ done: 11, total: 30 }, room),
    blank,
    leftRight([span(' 4  Sew the sleeves to their lines', 'strong')], [span('cannot be undone')], room),
    blank,
  ];
  const words = prose(
    'Raw edges to the pencil line. Keep every sleeve lying toward the front. *A reversed sleeve will not take its batten.*\n\n- D1 and D2 first\n- then D3 and **D4**\n\n| sleeve | line | mm from the front |\n|---|---|--:|\n| D1 | 1 | 312 |\n| D2 | 2 | 780 |',
    room,
  );
  const points = [
    blank,
    leftRight([span('   ✓ Raw edges lie on the pencil line from end to end', 'good')], [span('10:42')], room),
    ...wrapRow([span(' › '), span('Sewn line to the cut edge of A, three places', 'bright')], room, 3),
    leftRight(
      [span('     312.5    311.0    '), ...field({ text: '31', width: 6, unit: 'mm' })],
      [span('310.5 to 313.5')],
      room,
    ),
    leftRight([span('     Sleeve bore, laid flat')], [span('27 to 29 mm')], room),
  ];
  return page({
    header: indented(header),
    body: indented([...words, ...points]),
    footer: [blank, ...indented(legend(keys, room))],
    focus: words.length + 2,
    focusRows: 2,
    width,
    height,
  });
}

function caution({ width, height }: Size): readonly Row[] {
  const footer = indented(
    legend(
      [
        { keys: 'r', words: 'I have read this' },
        { keys: '?', words: 'keys' },
      ],
      width - 2,
    ),
  );
  const text =
    'Needle. The needle can go through your finger. Take your foot off the treadle before your hand goes near it.';
  const { band, message } = panel({ word: 'WARNING', said: 'WARNING', text, width, height: height - footer.length });
  return page({ header: band, body: message, footer, focus: 0, width, height });
}

function far({ width, height }: Size): readonly Row[] {
  const body = indented(big('Sewn line to the cut edge of A 312 ±1.5 mm', width - 2, 12));
  return page({ header: [], body, footer: indented(legend(keys, width - 2)), focus: 0, width, height });
}

const screens = { sewing, caution, far };

describe.each(Object.entries(screens))('%s', (name, build) => {
  test.each([
    { width: 60, height: 20 },
    { width: 80, height: 24 },
    { width: 120, height: 40 },
  ])('at $width by $height', async (size) => {
    const seen = await draw(<Lines rows={build(size)} {...size} theme={withoutColour} />, size.width, size.height);
    expect(seen.lost).toBe(0);
    await expect(`${seen.lines.join('\n')}\n`).toMatchFileSnapshot(`frames/${name}-${size.width}x${size.height}.txt`);
  });

  test('at any size the terminal shows exactly the rows that were built', async () => {
    for (const [width, height] of [
      [1, 1],
      [3, 2],
      [7, 9],
      [20, 5],
      [33, 12],
      [59, 19],
      [200, 60],
    ] as const) {
      const rows = build({ width, height });
      const seen = await draw(<Lines rows={rows} width={width} height={height} theme={withoutColour} />, width, height);
      expect(seen.lost).toBe(0);
      expect(seen.lines).toEqual(
        rows.map((row) =>
          row
            .map(({ text }) => text)
            .join('')
            .trimEnd(),
        ),
      );
    }
  });
});

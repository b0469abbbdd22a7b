import fc from 'fast-check';
import { expect, test } from 'vitest';
import { big } from '../../src/widgets/big.ts';
import { bigLetters } from '../../src/widgets/big-letters.ts';
import { rowColumns, rowText, span } from '../../src/widgets/row.ts';
import { wrapRow } from '../../src/widgets/wrap-row.ts';

const drawn = (text: string, width: number, height: number): readonly string[] => big(text, width, height).map(rowText);

test('few words are drawn six rows high', () => {
  expect(drawn('27 mm', 80, 12)).toEqual([
    '██████    ████████',
    '      ██        ██      ████████    ████████',
    '  ████        ██        ██  ██  ██  ██  ██  ██',
    '██          ██          ██  ██  ██  ██  ██  ██',
    '████████    ██          ██  ██  ██  ██  ██  ██',
  ]);
});

test('more words are drawn three rows high, an empty row between while there is room', () => {
  const press = [
    '█▀▀▄ ▄ ▄  ▄▄   ▄▄▄  ▄▄▄   ▄█▄ █▄▄   ▄▄',
    '█▀▀  █▀  █▀▀▀ ▀▀▄▄ ▀▀▄▄    █  █  █ █▀▀▀',
    '▀    ▀    ▀▀▀ ▀▀▀  ▀▀▀     ▀▀ ▀  ▀  ▀▀▀',
  ];
  const seam = [' ▄▄▄  ▄▄   ▄▄▄ ▄▄▄▄', '▀▀▄▄ █▀▀▀ █  █ █ █ █', '▀▀▀   ▀▀▀  ▀▀▀ ▀ ▀ ▀'];
  expect(drawn('Press the seam', 60, 7)).toEqual([...press, '', ...seam]);
  expect(drawn('Press the seam', 60, 6)).toEqual([...press, ...seam]);
});

test('letters without a drawing, or too many words, are spaced out; after that they are ordinary and all there', () => {
  expect(drawn('Größe 12', 60, 12)).toEqual(['G r ö ß e   1 2']);
  expect(drawn('Keep every sleeve lying', 24, 5)).toEqual(['K e e p   e v e r y', '', 's l e e v e   l y i n g']);
  expect(drawn('Keep every sleeve lying toward the front', 20, 2)).toEqual([
    'Keep every sleeve',
    'lying toward the',
    'front',
  ]);
});

test('every drawing is five or six rows of one width, and no two look alike', () => {
  const drawings = Object.entries(bigLetters);
  for (const [letter, drawing] of drawings) {
    const rows = drawing.split(' ');
    expect([5, 6], letter).toContain(rows.length);
    expect(new Set(rows.map((row) => row.length)).size, letter).toBe(1);
  }
  const alike = drawings.filter(([letter, drawing]) =>
    drawings.some(([other, same]) => other < letter && same === drawing),
  );
  expect(alike.map(([letter]) => letter)).toEqual(['−', '’']);
  const printable = Array.from({ length: 26 }, (_, at) => [at + 65, at + 97])
    .flat()
    .map((code) => String.fromCharCode(code));
  for (const letter of [...printable, ...'0123456789']) expect(bigLetters[letter], letter).toBeDefined();
});

test('any words at any size are never wider, and within the height whenever they can be made larger', () => {
  fc.assert(
    fc.property(
      fc.lorem({ maxCount: 12 }),
      fc.integer({ min: 1, max: 160 }),
      fc.integer({ min: 1, max: 12 }),
      (text, width, height) => {
        const rows = big(text, width, height);
        expect(Math.max(...rows.map(rowColumns))).toBeLessThanOrEqual(width);
        if (rows.length > height) expect(rows).toEqual(wrapRow([span(text, 'bright')], width));
      },
    ),
  );
});

import { expect, test } from 'vitest';
import { photoInCharacters } from '../../src/picture/photo-in-characters.ts';

const greys = {
  columns: 4,
  rows: 4,
  values: Uint8Array.of(0, 0, 255, 255, 0, 0, 255, 255, 128, 0, 0, 255, 0, 128, 0, 255),
};

test('light is light and dark is dark, above and below the middle of a cell, in greys and in shades', () => {
  expect(photoInCharacters(greys, { columns: 4, rows: 2 })).toEqual([
    [
      { text: '  ', greys: { over: 0, under: 0 } },
      { text: '██', greys: { over: 23, under: 23 } },
    ],
    [
      { text: '░', greys: { over: 12, under: 0 } },
      { text: '░', greys: { over: 0, under: 12 } },
      { text: ' ', greys: { over: 0, under: 0 } },
      { text: '█', greys: { over: 23, under: 23 } },
    ],
  ]);
});

test('it stands in the middle as large as it fits, fills its room exactly, and an odd last row is whole', () => {
  const white = { columns: 2, rows: 3, values: new Uint8Array(6).fill(255) };
  const textOf = (columns: number, rows: number): readonly string[] =>
    photoInCharacters(white, { columns, rows }).map((row) => row.map(({ text }) => text).join(''));
  expect(textOf(6, 2)).toEqual(['  ██  ', '  ██  ']);
  expect(textOf(3, 6)).toEqual(['   ', '   ', '███', '███', '   ', '   ']);
  expect(photoInCharacters(white, { columns: 2, rows: 2 })[1]).toEqual([
    { text: '██', greys: { over: 23, under: 23 } },
  ]);
});

test('a large photograph is made small by the mean of what each cell stands for', () => {
  const checked = {
    columns: 40,
    rows: 40,
    values: Uint8Array.from({ length: 1600 }, (_, at) => ((at + ((at / 40) | 0)) % 2) * 255),
  };
  const [row] = photoInCharacters(checked, { columns: 4, rows: 2 });
  expect(row).toEqual([{ text: '▒▒▒▒', greys: { over: 12, under: 12 } }]);
});

import { expect, test } from 'vitest';
import { LAYERS, layerNamed } from '../../src/drawing/pattern/layers.ts';

/**
 * ASTM D6673-10, Standard Practice for Sewn Products Pattern Data Interchange, its table of layers; read in a summary, which leaves
 * layer 12 blank. ANSI/AAMA-292 numbers 1 to 14 in the same way; read in a second summary.
 */
const TABLE: readonly (readonly [number, string])[] = [
  [1, 'piece boundary'],
  [2, 'turn points'],
  [3, 'curve points'],
  [4, 'notches'],
  [5, 'grade reference'],
  [6, 'mirror line'],
  [7, 'grain line'],
  [8, 'internal lines'],
  [9, 'stripe reference'],
  [10, 'plaid reference'],
  [11, 'internal cutouts'],
  [13, 'drill holes'],
  [14, 'sew lines'],
  [15, 'annotation'],
  [80, 'T-notches'],
  [81, 'castle notches'],
  [82, 'check notches'],
  [83, 'U-notches'],
  [84, 'a second copy of layer 1,'],
  [85, 'a second copy of layer 8,'],
  [86, 'a second copy of layer 11,'],
  [87, 'a second copy of layer 14,'],
];

test('the layers of a pattern file are those of the practice, and no others', () => {
  expect([...LAYERS.keys()]).toEqual(TABLE.map(([number]) => number));
  for (const [number, means] of TABLE)
    expect(layerNamed(String(number))?.means.startsWith(means), String(number)).toBe(true);
});

test('what is sewn, cut, notched and marked has its class', () => {
  expect([1, 4, 8, 13, 14, 81].map((number) => layerNamed(String(number))?.becomes)).toEqual([
    'piece',
    'notch',
    'mark',
    'mark',
    'seam',
    'notch',
  ]);
});

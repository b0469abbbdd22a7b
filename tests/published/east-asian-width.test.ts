import { expect, test } from 'vitest';
import { columns } from '../../src/base/columns.ts';
import { showHidden } from '../../src/base/text.ts';
import data from './data/east-asian-width.json' with { type: 'json' };

// Source and licence stand in data/east-asian-width.json.

const at = (hex: string): string => String.fromCodePoint(Number.parseInt(hex, 16));
const isIgnorable = (character: string): boolean => /\p{Default_Ignorable_Code_Point}/u.test(character);

test.each(data.characters)('$cp $name ($class) takes $columns columns', ({ cp, columns: expected }) => {
  const character = at(cp);
  // Soft hyphen and choseong filler: terminals differ, so neither is ever printed as itself.
  if (cp === '00AD' || cp === '115F') expect(showHidden(character)).toBe(`⟨U+${cp}⟩`);
  else expect(columns(character)).toBe(expected);
});

test.each(data.sequences)('$name takes $columns columns', ({ codepoints, columns: expected }) => {
  expect(columns(codepoints.split(' ').map(at).join(''))).toBe(expected);
});

test('every wide or fullwidth code point takes two columns, unless it combines or is never printed', () => {
  const wrong: string[] = [];
  for (const range of data.wide) {
    const [first = '', last = ''] = range.split('-');
    for (let code = Number.parseInt(first, 16); code <= Number.parseInt(last, 16); code++) {
      const character = String.fromCodePoint(code);
      if (/\p{Mn}/u.test(character) || isIgnorable(character)) continue;
      if (columns(character) !== 2) wrong.push(code.toString(16));
    }
  }
  expect(wrong).toEqual([]);
});

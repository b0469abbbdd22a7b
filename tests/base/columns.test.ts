import fc from 'fast-check';
import stringWidth from 'string-width';
import { expect, test } from 'vitest';
import { columns } from '../../src/base/columns.ts';
import { oneLine } from '../../src/base/text.ts';

test('the screen library would lay out every character alike', () => {
  const differ: string[] = [];
  for (let code = 0x20; code < 0x20000; code++) {
    const shown = oneLine(String.fromCodePoint(code));
    if (columns(shown) !== stringWidth(shown)) differ.push(code.toString(16));
  }
  expect(differ).toEqual([]);
});

test('and every row of them: letters with marks, syllables, flags, key caps, pictures', () => {
  const pieces = fc.constantFrom(
    'e\u0301',
    '한',
    '\u1112\u1161\u11ab',
    '🇩🇪',
    '1\ufe0f\u20e3',
    '❤️',
    '✂︎',
    '👍🏽',
    'ﾊﾞ',
    'नि',
    '針',
    '±',
    ' ',
  );
  const row = fc
    .array(fc.oneof(pieces, fc.string({ unit: 'grapheme', maxLength: 3 })), { maxLength: 8 })
    .map((parts) => oneLine(parts.join('')));
  fc.assert(
    fc.property(row, (shown) => columns(shown) === stringWidth(shown)),
    { numRuns: 5000 },
  );
});

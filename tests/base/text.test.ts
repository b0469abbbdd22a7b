import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { columns, graphemes } from '../../src/base/columns.ts';
import { cut, oneLine, pad, padStart, showHidden, wrap } from '../../src/base/text.ts';

const anyText = fc.string({ unit: 'grapheme', maxLength: 80 });

describe('hidden characters are shown', () => {
  test.each([
    ['\x1b[2Jgone', '␛[2Jgone'],
    ['bell\x07, delete\x7f', 'bell␇, delete␡'],
    ['\x9b31m', '⟨U+009B⟩31m'],
    ['pull \u202Ereversed', 'pull ⟨U+202E⟩reversed'],
    ['\u2066isolated\u2069', '⟨U+2066⟩isolated⟨U+2069⟩'],
    ['Ines\u200B', 'Ines⟨U+200B⟩'],
    ['soft\u00ADhyphen', 'soft⟨U+00AD⟩hyphen'],
    ['tag\u{E0041}', 'tag⟨U+E0041⟩'],
    ['half \ud83e a pair', 'half ⟨U+D83E⟩ a pair'],
    ['note\uFFF9to', 'note⟨U+FFF9⟩to'],
    ['line\u2028break', 'line⟨U+2028⟩break'],
    ['join\u200Dme', 'join⟨U+200D⟩me'],
    ['smuggled\uFE01', 'smuggled⟨U+FE01⟩'],
    ['over\rwritten', 'over␍written'],
  ])('%j is shown as %s', (text, shown) => expect(showHidden(text)).toBe(shown));

  test('words, accents, fractions, units, wide characters and emoji stay as they are', () => {
    const plain = 'Maß 1½ in, 12,5 mm ±0,5 °C é e\u0301 針 ⚠️ ✂︎ 🪡';
    expect(showHidden(plain)).toBe(plain);
  });

  test('line breaks stay, and become a space where there is one row', () => {
    expect(showHidden('one\r\ntwo\tthree\n')).toBe('one\ntwo three\n');
    expect(oneLine('one\r\ntwo\n')).toBe('one two ');
  });

  test('nothing is left that a terminal would obey', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(showHidden(text)).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f]|\p{Cs}|\p{Bidi_Control}/u);
      }),
    );
  });
});

describe('columns', () => {
  test('a person counts graphemes, a terminal counts columns', () => {
    expect(graphemes('e\u0301🪡👍🏽')).toEqual(['e\u0301', '🪡', '👍🏽']);
    expect(columns('e\u0301')).toBe(1);
    expect(columns('針と糸')).toBe(6);
  });

  test.each([
    ['Sleeve, front', 13, 'Sleeve, front'],
    ['Sleeve, front', 12, 'Sleeve, fro…'],
    ['針と糸', 5, '針と…'],
    ['針と糸', 4, '針…'],
    ['針と糸', 1, '…'],
    ['e\u0301e\u0301e\u0301', 2, 'e\u0301…'],
    ['anything', 0, ''],
  ])('%s cut to %i is %s', (text, width, short) => expect(cut(text, width)).toBe(short));

  test('padding gives the exact width on either side', () => {
    expect(pad('針', 4)).toBe('針  ');
    expect(padStart('27 mm', 7)).toBe('  27 mm');
    expect(pad('針と糸', 4)).toBe('針… ');
  });

  test('a cut never widens and a pad is always exact', () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 0, max: 30 }), (text, width) => {
        const line = oneLine(text);
        expect(columns(cut(line, width))).toBeLessThanOrEqual(width);
        expect(columns(pad(line, width))).toBe(width);
      }),
    );
  });
});

describe('rows', () => {
  test.each([
    ['Raw edges to the pencil line.', 12, ['Raw edges to', 'the pencil', 'line.']],
    ['one\n\ntwo', 9, ['one', '', 'two']],
    ['Unterfadenspannung', 6, ['Unterf', 'adensp', 'annung']],
    ['針と糸', 4, ['針と', '糸']],
    ['針 a', 1, ['…', 'a']],
  ])('%j in %i columns', (text, width, rows) => expect(wrap(text, width)).toEqual(rows));

  test('no row is wider than asked, and no letter is lost', () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 2, max: 30 }), (text, width) => {
        const shown = showHidden(text);
        fc.pre(graphemes(shown).every((one) => columns(one) <= width));
        const rows = wrap(shown, width);
        for (const row of rows) expect(columns(row)).toBeLessThanOrEqual(width);
        expect(rows.join('').replace(/\s/g, '')).toBe(shown.replace(/\s/g, ''));
      }),
    );
  });
});

// A way of working that looks at everything again for each character would run into the test's time limit here.
test.each([
  ['letters', 'a', 1],
  ['wide characters', '語', 2],
  ['accents', 'e\u0301', 1],
  ['emoji', '🪡', 2],
])('a hundred thousand %s are laid out', (_, unit, width) => {
  const text = unit.repeat(100_000);
  expect(showHidden(text)).toBe(text);
  expect(columns(text)).toBe(100_000 * width);
  expect(cut(text, 99_999)).toMatch(/…$/);
  expect(wrap(text, 40)).toHaveLength((100_000 * width) / 40);
});

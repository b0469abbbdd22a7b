import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { prose } from '../../src/widgets/prose.ts';
import { rowColumns, rowText } from '../../src/widgets/row.ts';

const drawn = (markdown: string, width: number): readonly string[] => prose(markdown, width).map(rowText);

describe('prose', () => {
  test('a paragraph is one flow of words with their meanings', () => {
    expect(prose('Raw edges\nto the **pencil *line***, `d1` *now* ~~not~~.', 80)).toEqual([
      [
        { text: 'Raw edges to the ', style: 'plain' },
        { text: 'pencil ', style: 'strong' },
        { text: 'line', style: 'strong' },
        { text: ', ', style: 'plain' },
        { text: 'd1', style: 'code' },
        { text: ' ', style: 'plain' },
        { text: 'now', style: 'emphasis' },
        { text: ' ', style: 'plain' },
        { text: 'not', style: 'struck' },
        { text: '.', style: 'plain' },
      ],
    ]);
  });

  test('a meaning goes on over the end of a row, not over its margin', () => {
    expect(prose('> **one two three**', 16)).toEqual([
      [
        { text: '│ ', style: 'plain' },
        { text: 'one two three', style: 'strong' },
      ],
    ]);
    expect(prose('> **one two three four**', 16)[1]).toEqual([
      { text: '│ ', style: 'plain' },
      { text: 'four', style: 'strong' },
    ]);
  });

  test('lists keep their numbers, boxes and bold words, and hang', () => {
    expect(
      drawn('9. **Nine** is long enough to wrap\n10. ten\n    - within\n    - [ ] open\n    - [x] shut', 24),
    ).toEqual([' 9. Nine is long enough', '    to wrap', '10. ten', '    • within', '    [ ] open', '    [x] shut']);
    expect(drawn('- [x] one\n\n  more of it\n- two', 30)).toEqual(['[x] one', '', '    more of it', '', '• two']);
    expect(prose('- **bold**', 30)[0]?.[1]).toEqual({ text: 'bold', style: 'strong' });
  });

  test('tables keep within the width', () => {
    const markdown =
      '| piece | what it is | mm |\n|:--|:-:|--:|\n| A | front panel of the lining | 1200 |\n| D1 | sleeve | 31 |';
    expect(drawn(markdown, 50)).toEqual([
      'piece │        what it is         │   mm',
      '──────┼───────────────────────────┼─────',
      'A     │ front panel of the lining │ 1200',
      'D1    │          sleeve           │   31',
    ]);
    expect(drawn(markdown, 32)).toEqual([
      'piece │    what it is     │   mm',
      '──────┼───────────────────┼─────',
      'A     │  front panel of   │ 1200',
      '      │    the lining     │',
      'D1    │      sleeve       │   31',
    ]);
    expect(drawn(markdown, 16)).toEqual([
      'piece: A',
      'what it is:',
      'front panel of',
      'the lining',
      'mm: 1200',
      '',
      'piece: D1',
      'what it is:',
      'sleeve',
      'mm: 31',
    ]);
  });

  test('headings, rules, code, links, pictures, breaks and names of characters', () => {
    expect(
      drawn(
        '## Sew\n\na  \nb\n\n---\n\n```\nx   y\n```\n\n[page](http://a.example/b) ![lining](l.svg) &plusmn;1.5 &amp;lt; &nosuch;',
        60,
      ),
    ).toEqual([
      'Sew',
      '',
      'a',
      'b',
      '',
      '─'.repeat(60),
      '',
      '  x   y',
      '',
      'page (http://a.example/b) [lining] ±1.5 &lt; &nosuch;',
    ]);
  });

  test('HTML is text like any other, so nothing is hidden', () => {
    expect(drawn('<!-- take the guard off -->\n\n<b>now</b>', 60)).toEqual([
      '<!-- take the guard off -->',
      '',
      '<b>now</b>',
    ]);
  });

  test.each([
    ['a reference', 'a &#27;]0;title&#7; b', 'a ␛]0;title␇ b'],
    ['a hexadecimal reference', 'a &#x1b;[2J b', 'a ␛[2J b'],
    ['the raw character', 'a \u001b]52;c;eA==\u0007 b', 'a ␛]52;c;eA==␇ b'],
    ['raw, in code', '`a\u001b[2Jb`', 'a␛[2Jb'],
    ['raw, in a block of code', '```\na\u001b[2Jb\n```', '  a␛[2Jb'],
    ['raw, in HTML', '<b\u001b[2J>', '<b␛[2J>'],
    ['in an address', '[a](<http://b/\u001b[2J>)', 'a (http://b/␛[2J)'],
    ['in words for a picture', '![a\u001bM](b.svg)', '[a␛M]'],
    ['in a table', '| a&#27;[2J |\n|--|\n| b |', 'a␛[2J'],
    ['our own sign for bold', 'a \u001b[1mb', 'a ␛[1mb'],
    ['words from right to left', 'a \u202eb', 'a ⟨U+202E⟩b'],
    ['the eight-bit introducer', 'a &#x9b;2J', 'a ⟨U+009B⟩2J'],
  ])('an escape by %s is shown as marks', (_, markdown, expected) => {
    expect(drawn(markdown, 60)[0]).toBe(expected);
  });

  test.each(['> ', '- '])('thousands of %j within each other are shown as they were written', (sign) => {
    const rows = drawn(`${sign.repeat(20_000)}\u001b[2Jx`, 80);
    expect(rows[0]).toMatch(/^[>-]( [>-])+$/);
    expect(rows.at(-1)).toContain('␛[2Jx');
  });

  test('asking again gives the same array, another width another one', () => {
    const text = 'Keep every sleeve lying toward the front.';
    expect(prose(text, 30)).toBe(prose(text, 30));
    expect(prose(text, 30)).not.toBe(prose(text, 31));
  });

  const piece = fc.constantFrom(
    ...[
      'word',
      ' ',
      ' ',
      '\n',
      '\n\n',
      '**',
      '*',
      '`',
      '~~',
      '- ',
      '1. ',
      '- [ ] ',
      '> ',
      '# ',
      '| ',
      '|--|--|\n',
      '```\n',
      '    ',
      '日本',
      '±',
      '&#27;',
      '<b>',
      '[a](b)',
      '![',
      '\u001b[2J',
      '\\',
      '\t',
      'averyveryverylongwordindeed',
    ],
  );
  const anyMarkdown = fc.oneof(
    fc.array(piece, { maxLength: 60 }).map((parts) => parts.join('')),
    fc.string({ maxLength: 200 }),
  );

  test('any Markdown at any width: never wider, no control character', () => {
    fc.assert(
      fc.property(anyMarkdown, fc.integer({ min: 1, max: 120 }), (markdown, width) => {
        for (const row of prose(markdown, width)) {
          expect(rowColumns(row)).toBeLessThanOrEqual(width);
          expect(rowText(row)).not.toMatch(/\p{Cc}/u);
        }
      }),
      { numRuns: 500 },
    );
  });

  test('no word is lost in lists, tables and quotations, however deep and narrow', () => {
    const word = fc.string({ unit: fc.constantFrom(...'abcdefgh'), minLength: 1, maxLength: 12 });
    const prefix = fc.constantFrom('', '- ', '> ', '> - ', '1. ', '- - - ', '## ', '| ');
    const line = fc
      .tuple(prefix, fc.array(word, { minLength: 1, maxLength: 8 }))
      .map(([start, words]) => start + words.join(' '));
    const letters = (text: string): string => text.replace(/[^a-h]/g, '');
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 6 }), fc.integer({ min: 1, max: 60 }), (lines, width) => {
        const markdown = lines.join('\n\n');
        expect(letters(drawn(markdown, width).join(''))).toBe(letters(markdown));
      }),
    );
  });
});

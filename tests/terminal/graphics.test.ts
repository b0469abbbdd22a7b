import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { followGraphics } from '../../src/terminal/follow-graphics.ts';
import { type Graphics, graphicsOf, noAnswers, withAnswer } from '../../src/terminal/graphics.ts';
import type { Size } from '../../src/terminal/open-terminal.ts';
import { questionsFor } from '../../src/terminal/questions.ts';

const heardAt = (size: Size, ...answers: readonly string[]) =>
  graphicsOf(
    answers.reduce((all, bytes) => withAnswer(all, bytes) ?? all, noAnswers),
    size,
  );
const heard = (...answers: readonly string[]) => heardAt({ columns: 80, rows: 24 }, ...answers);

/** As terminals answer, recorded from them or written down from their manuals. */
const KITTY_OK = '\x1b_Gi=1;OK\x1b\\';
const CELL = '\x1b[6;18;9t';
const SIXTEEN = '\x1b[?1;0;16S';
const SIXEL = '\x1b[?63;1;4c';
const GROUND = '\x1b]11;rgb:1010/1010/1414\x1b\\';

describe('what a terminal can', () => {
  test.each([
    ['Kitty protocol', [KITTY_OK, CELL, GROUND, '\x1b[?62;c'], { way: 'kitty', cell: { width: 9, height: 18 } }],
    [
      'sixel',
      [CELL, SIXTEEN, GROUND, '\x1b[?63;1;2;3;4;6c'],
      { way: 'sixel', cell: { width: 9, height: 18 }, colours: 16 },
    ],
    ['both: Kitty', [KITTY_OK, SIXTEEN, '\x1b[?62;4c'], { way: 'kitty' }],
    [
      'sixel, and says nothing else',
      ['\x1b[?62;4;22c'],
      { way: 'sixel', cell: { width: 8, height: 16 }, most: null, colours: 256 },
    ],
  ])('%s', (_, answers, found) => expect(heard(...answers)).toMatchObject(found));

  // 110 by 30 cells of 9 by 19 pixels, then 133 by 47, and 165 by 47 with some pixels to spare: as an xterm answered that may not be
  // asked for the size of a cell, and that takes no more than 1000 by 1000.
  test.each([
    ['990;570', { columns: 110, rows: 30 }, { width: 9, height: 19 }],
    ['1000;893', { columns: 133, rows: 47 }, { width: 8, height: 19 }],
    ['1000;896', { columns: 125, rows: 47 }, { width: 8, height: 19 }],
    ['1000;1000', { columns: 200, rows: 100 }, { width: 8, height: 16 }],
    ['1000;1000', { columns: 50, rows: 25 }, { width: 8, height: 16 }],
  ])('the field %s tells the size of a cell where it is not cut to the largest', (field, size, cell) => {
    const most = { width: 1000, height: 1000 };
    expect(heardAt(size, `\x1b[?2;0;${field}S`, '\x1b[?2;0;1000;1000S', SIXEL)).toMatchObject({ cell, most });
    expect(heardAt(size, CELL, `\x1b[?2;0;${field}S`, '\x1b[?2;0;1000;1000S', SIXEL)).toMatchObject({
      cell: { width: 9, height: 18 },
      most,
    });
  });

  test('a field of which nobody says whether it is the largest tells no size of a cell', () => {
    const cell = { width: 8, height: 16 };
    expect(heard('\x1b[?2;0;720;456S', SIXEL)).toMatchObject({ cell, most: { width: 720, height: 456 } });
    expect(heard('\x1b[?2;3S', '\x1b[?2;3S', SIXEL)).toMatchObject({ cell, most: null });
  });

  test.each([
    ['characters', ['\x1b[?1;2c']],
    ['a kind of terminal that is no attribute', ['\x1b[?4c']],
    ['a picture it refuses', ['\x1b_Gi=1;ENOTSUPPORTED:no\x1b\\', '\x1b[?62c']],
    ['nothing', []],
  ])('%s: none', (_, answers) => expect(heard(...answers)).toBeNull());

  test('sizes and colours that cannot be are not believed', () => {
    const sixel = '\x1b[?62;4c';
    expect(heard('\x1b[6;0;0t', sixel)?.cell).toEqual({ width: 8, height: 16 });
    expect(heard('\x1b[6;99999;9t', sixel)?.cell).toEqual({ width: 8, height: 16 });
    expect(heard('\x1b[?1;0;1S', sixel)?.colours).toBe(2);
    expect(heard('\x1b[?1;0;65536S', sixel)?.colours).toBe(256);
    expect(heard('\x1b[?1;3S', sixel)?.colours).toBe(256);
  });

  test.each([
    ['\x1b]11;rgb:ffff/ffff/ffff\x07', '#ffffff'],
    ['\x1b]11;rgb:10/80/ff\x1b\\', '#1080ff'],
    ['\x1b]11;rgba:0000/8000/ffff/ffff\x1b\\', '#0080ff'],
    ['\x1b]11;rgb:zz/00/00\x1b\\', null],
    ['\x1b]11;?\x1b\\', null],
  ])('the ground %j', (answer, colour) => expect(heard(answer, '\x1b[?62;4c')?.ground).toBe(colour));

  test('what keys send is no answer', () => {
    for (const bytes of [
      '\x1b[A',
      '\x1b[3~',
      '\x1b[5;1R',
      '\x1b[I',
      '\x1b[<0;3;4M',
      '\x1ba',
      '\x1b[27;5;13~',
      '\x1b[c',
      '\x1b]52;c;QQ==\x07',
    ])
      expect(withAnswer(noAnswers, bytes), JSON.stringify(bytes)).toBeNull();
  });

  test('no answer throws, whatever it is', () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom('\x1b_G', '\x1b[?', '\x1b[6;', '\x1b]11;rgb:', ''), (text, begin) => {
        expect(() => heard(begin + text, '\x1b[?62;4c')).not.toThrow();
      }),
    );
  });
});

describe('following', () => {
  function terminal() {
    const written: string[] = [];
    const told: (Graphics | null)[] = [];
    let answer = (_: string): void => {};
    let resize = (): void => {};
    const at = {
      size: () => ({ columns: 80, rows: 24 }),
      stdout: { write: (text: string) => written.push(text) },
      onAnswer: (fn: typeof answer) => (answer = fn),
      onResize: (fn: typeof resize) => (resize = fn),
    };
    followGraphics(at, 'what can you show?', (graphics) => told.push(graphics));
    const answers = (...all: readonly string[]): void => {
      for (const bytes of all) answer(bytes);
    };
    return { written, told, answers, resize: () => resize() };
  }

  test('tells what is answered up to the answer that every terminal gives, however late', () => {
    const { told, answers, written } = terminal();
    expect(written).toEqual(['what can you show?']);
    answers(KITTY_OK, CELL);
    expect(told).toEqual([]);
    answers('\x1b[?62c');
    expect(told).toMatchObject([{ way: 'kitty', cell: { width: 9, height: 18 } }]);
  });

  test('asks anew when the window has changed, and shows characters until the answer', () => {
    const { told, answers, written, resize } = terminal();
    answers(CELL, SIXEL);
    resize();
    expect(told.at(-1)).toBeNull();
    expect(written).toHaveLength(2);
    answers('\x1b[6;30;15t', SIXEL);
    expect(told.at(-1)).toMatchObject({ cell: { width: 15, height: 30 } });
  });

  test('takes each answer for its own question, and one that lost its sixels for characters', () => {
    const { told, answers, resize } = terminal();
    resize();
    answers(KITTY_OK, CELL, '\x1b[?62c', '\x1b[?62c');
    expect(told).toMatchObject([null, { way: 'kitty' }, null]);
  });
});

describe('what a terminal is asked', () => {
  test('ends with what every terminal answers', () =>
    expect(questionsFor({ TERM: 'xterm-256color' })).toMatch(/^\x1b_G.*a=q.*\x1b\[c$/s));

  test.each([
    { TERM: 'tmux-256color' },
    { TERM: 'screen' },
    { TERM: 'xterm-256color', TMUX: '/tmp/tmux-0/default,1,0' },
  ])('is nothing in %j that would become a title', (env) =>
    expect(questionsFor(env)).toMatch(/^\x1b\[16t[^_PX^k]*\x1b\[c$/),
  );

  test.each(['linux', 'dumb', 'vt52'])('is nothing at all in %s, which would print it', (TERM) =>
    expect(questionsFor({ TERM })).toBeNull(),
  );
});

import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { askGraphics } from '../../src/terminal/ask-graphics.ts';
import { graphicsOf, noAnswers, withAnswer } from '../../src/terminal/graphics.ts';

const heard = (...answers: readonly string[]) =>
  graphicsOf(
    answers.reduce((all, bytes) => withAnswer(all, bytes) ?? all, noAnswers),
    { columns: 80, rows: 24 },
  );

/** As terminals answer, recorded from them or written down from their manuals. */
const KITTY_OK = '\x1b_Gi=1;OK\x1b\\';
const CELL = '\x1b[6;18;9t';
const SIXTEEN = '\x1b[?1;0;16S';
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

  test('the field for pictures tells the size of a cell where it is that of all cells', () => {
    const cellOf = (field: string) => heard(field, '\x1b[?63;1;4c');
    expect(cellOf('\x1b[?2;0;720;456S')).toMatchObject({
      cell: { width: 9, height: 19 },
      most: { width: 720, height: 456 },
    });
    expect(cellOf('\x1b[?2;0;1000;456S')).toMatchObject({
      cell: { width: 8, height: 16 },
      most: { width: 1000, height: 456 },
    });
    expect(cellOf('\x1b[?2;3S')).toMatchObject({ cell: { width: 8, height: 16 }, most: null });
    expect(heard(CELL, '\x1b[?2;0;720;456S', '\x1b[?63;4c')?.cell).toEqual({ width: 9, height: 18 });
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

describe('asking', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  function terminal() {
    const written: string[] = [];
    const listeners = new Set<(bytes: string) => void>();
    const onAnswer = (fn: (bytes: string) => void) => {
      listeners.add(fn);
      return () => void listeners.delete(fn);
    };
    const answer = (bytes: string): void => {
      for (const fn of [...listeners]) fn(bytes);
    };
    return {
      size: () => ({ columns: 80, rows: 24 }),
      stdout: { write: (text: string) => written.push(text) },
      onAnswer,
      answer,
      written,
      listeners,
    };
  }

  test('ends with the answer that every terminal gives', async () => {
    const at = terminal();
    const found = askGraphics(at);
    for (const bytes of [KITTY_OK, CELL, '\x1b[?62c']) at.answer(bytes);
    expect(await found).toMatchObject({ way: 'kitty', cell: { width: 9, height: 18 } });
    expect(at.listeners.size).toBe(0);
    expect(vi.getTimerCount()).toBe(0);
    expect(at.written.join('')).toMatch(/a=q.*\x1b\[c$/s);
  });

  test('ends after 200 ms when nothing is answered, or not all', async () => {
    const at = terminal();
    const found = askGraphics(at);
    at.answer(KITTY_OK);
    await vi.advanceTimersByTimeAsync(199);
    expect(at.listeners.size).toBe(1);
    await vi.advanceTimersByTimeAsync(1);
    expect(await found).toBeNull();
    expect(at.listeners.size).toBe(0);
    expect(() => at.answer('\x1b[?62;4c')).not.toThrow();
  });
});

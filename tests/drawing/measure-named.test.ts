import { describe, expect, test } from 'vitest';
import type { Drawing } from '../../src/drawing/drawing.ts';
import { readMeasure } from '../../src/drawing/measure.ts';
import { measureNamed } from '../../src/drawing/measure-named.ts';
import { readDrawing } from '../../src/drawing/read-drawing.ts';
import { own } from './own.ts';
import { svg } from './svg.ts';

const measured = (drawing: Drawing, words: string): readonly number[] | string => {
  const result = measureNamed(drawing, words);
  return result.ok ? result.value.map((value) => Number(value.toFixed(9))) : result.error.rule;
};
const of = (inside: string, words: string) => measured(readDrawing(svg(inside), 'a.svg').drawing, words);

describe('the practice drawings measure what their jobs say', () => {
  test.each([
    ['lining', 'line-D1–A-aft', [312, 312, 312]],
    ['lining', 'B-front–line-D2', [72, 72, 72]],
    ['lining', 'line-D3 to B-front', [432, 432, 432]],
    ['lining', 'mark-E–B-front', [252]],
    ['lining', 'D2 – D3', [360, 360, 360]],
    ['lining', 'A-B–A-aft', [12, 12, 12]],
    ['lining', 'T1–A-B', [3, 3, 3]],
    ['lining', 'centre-line', [1_440]],
    ['lining', 'diagonal-1', [1_818.15840894]],
    ['lining', 'A depth', [552]],
    ['lining', 'D1 width', [945]],
    ['lining', 'seam-E', [408.407044967]],
    ['lining', 'notch-A-aft-1–notch-A-aft-2', [400]],
    ['cushion', 'P1-close', [3_120]],
    ['cushion', 'P1-piping width', [1_090]],
    ['cushion', 'P1-piping d2', [1_187.013058058]],
    ['hood', 'opening d1', [1_089.311709292]],
    ['hood', 'row-2–opening', [18, 18, 18]],
    ['hood', 'BD', [2_568.495559215]],
    ['hood', 'ST-L depth', [25]],
  ])('%s: %s', (name, words, values) => expect(measured(own(name), words)).toEqual(values));
});

test('a hyphen for the dash between two ids has a way out that every keyboard can type', () => {
  const result = measureNamed(own('lining'), 'line-D1-A-aft');
  expect(result.ok ? '' : result.error.message).toBe(
    'The drawing has no line-D1-A-aft; write the id of a part of it, or two with – or to between them.',
  );
});

describe('distances', () => {
  const slanted =
    '<line id="a" class="edge" x1="0" y1="0" x2="100" y2="0"/><line id="b" class="mark" x1="10" y1="20" x2="90" y2="30"/>';
  test('are square to the longer line, from both ends and the middle of the shorter', () =>
    expect(of(slanted, 'b–a')).toEqual([20, 25, 30]));
  test('do not depend on which is named first', () => expect(of(slanted, 'a–b')).toEqual([20, 25, 30]));

  test('a straight line goes on beyond its ends', () =>
    expect(of('<line id="a" x2="40"/><line id="b" x1="30" y1="7" x2="70" y2="7"/>', 'a–b')).toEqual([7, 7, 7]));

  const arc = '<path id="a" d="M0 50A50 50 0 0 1 100 50"/>';
  test('to a bent line are the nearest way', () =>
    expect(of(`${arc}<path id="b" d="M10 50A40 40 0 0 1 90 50"/>`, 'a–b')).toEqual([10, 10, 10]));
  test('from a bent line to a straight one, the middle is that of its length', () => {
    const edge = '<line id="b" x1="-100" y1="100" x2="300" y2="100"/>';
    expect(of(`${arc}${edge}`, 'a–b')).toEqual([50, 100, 50]);
    // A quarter circle and a straight line of the same length: half way is where they meet.
    const uneven = `<path id="a" d="M0 50A50 50 0 0 1 50 0h${25 * Math.PI}"/>`;
    expect(of(`${uneven}${edge}`, 'a–b')).toEqual([50, 100, 100]);
  });
  test('beside the end of a bent line cannot be measured', () =>
    expect(of(`${arc}<line id="b" x1="5" y1="60" x2="55" y2="60"/>`, 'a–b')).toBe('distance-askew'));
  test('to a bent curve that is no arc, too', () => {
    // The parabola y = x² / 100 and the place (0, 60): x² + (x² / 100 - 60)² is least at x² = 1000, where y = 10.
    const [away] = of('<path id="a" d="M-50 25Q0 -25 50 25"/><path id="b" d="M-1 59L1 61M-1 61L1 59"/>', 'a–b');
    expect(away).toBeCloseTo(Math.hypot(Math.sqrt(1_000), 50), 8);
  });

  test('between notches of one edge are measured along it', () => {
    const edge = '<path id="e" class="edge" d="M0 50A50 50 0 0 1 100 50"/>';
    const notch = (n: number, x: number, y: number) =>
      `<path id="notch-e-${n}" class="notch" d="M${x - 2} ${y}l2 2l2 -2"/>`;
    expect(of(`${edge}${notch(1, 0, 50)}${notch(2, 50, 0)}`, 'notch-e-1–notch-e-2')).toEqual([
      Number((25 * Math.PI).toFixed(9)),
    ]);
    expect(of(`${notch(1, 0, 50)}${notch(2, 30, 10)}`, 'notch-e-1–notch-e-2')).toEqual([50]);
    expect(of(`${edge}${notch(1, 0, 50)}${notch(2, 50, 9)}`, 'notch-e-1–notch-e-2')).toBe('notch-astray');
  });
});

describe('what marks a place and what is a line', () => {
  const edge = '<line id="e" class="edge" x2="150"/>';
  test.each([
    ['a cross', 'M10 30H50M30 10V50', [30]],
    ['a double notch', 'M20 20l3 3l3 -3M32 20l3 3l3 -3', [20]],
    ['a hole', 'M10 30A5 5 0 0 1 20 30A5 5 0 0 1 10 30Z', [30]],
    ['a circle in a cross, no larger than a notch', 'M10 30A5 5 0 0 1 20 30A5 5 0 0 1 10 30ZM8 30H22', [30]],
    ['one line', 'M10 30H60', [30, 30, 30]],
    ['two lines', 'M10 30H60M10 70H60', 'distance-broken'],
    ['a broken line', 'M10 30H60M70 30H120', 'distance-broken'],
    ['an outline with a hole', 'M10 30H60V80H10ZM20 40H50V70H20Z', 'distance-broken'],
  ])('%s', (_, data, expected) => expect(of(`${edge}<path id="m" d="${data}"/>`, 'm–e')).toEqual(expected));
});

describe('sizes and diagonals', () => {
  test('a size is that of the outline, whatever it is made of', () => {
    expect(
      of('<g transform="rotate(30)"><circle id="a" class="piece" cx="10" cy="20" r="30"/></g>', 'a width'),
    ).toEqual([60]);
    expect(of('<path id="a" class="piece" d="M0 0C0 40 100 40 100 0Z"/>', 'a depth')).toEqual([30]);
    expect(of('<path id="a" d="M0 0Q50 40 100 0Z"/>', 'a depth')).toEqual([20]);
  });

  test('corners cut round count where their sides would meet, and points within a side do not count', () => {
    expect(of('<rect id="a" width="40" height="30" rx="5"/>', 'a d1')).toEqual([50]);
    expect(of('<path id="a" class="piece" d="M20 0H40V10V30H0V0Z"/>', 'a d1')).toEqual([50]);
    expect(of('<polygon id="a" points="10,0 90,0 100,50 0,50"/>', 'a d2')).toEqual([
      Number(Math.hypot(90, 50).toFixed(9)),
    ]);
  });

  test('d1 begins in the upper left corner as drawn', () => {
    const rhomboid = '<polygon id="a" points="100,30 0,30 20,0 120,0"/>';
    expect(of(rhomboid, 'a d1')).toEqual([Number(Math.hypot(80, 30).toFixed(9))]);
    expect(of(rhomboid, 'a d2')).toEqual([Number(Math.hypot(120, 30).toFixed(9))]);
  });

  test.each(['<circle id="a" r="3"/>', '<polygon id="a" points="0,0 9,0 5,9"/>', '<line id="a" x2="9"/>'])(
    '%s has no diagonals',
    (it) => expect(of(it, 'a d1')).toBe('corners-not-four'),
  );
});

describe('names', () => {
  const group = '<g id="D1"><rect class="piece" width="90" height="30"/><line id="s" class="seam" x2="80"/></g>';
  test('a group stands for its piece when a size is asked for, and for its line otherwise', () => {
    expect(of(group, 'D1 width')).toEqual([90]);
    expect(of(group, 'D1')).toEqual([80]);
    expect(of(`${group}<line id="e" y1="9" x2="99" y2="9"/>`, 'D1–e')).toEqual([9, 9, 9]);
  });

  test.each([
    ['x', 'part-missing'],
    ['x–s', 'part-missing'],
    ['s–x', 'part-missing'],
    ['s s', 'measure-unreadable'],
    ['s height', 'measure-unreadable'],
    ['s width depth', 'measure-unreadable'],
    ['s–', 'measure-unreadable'],
    ['', 'measure-unreadable'],
    ['–', 'measure-unreadable'],
  ])('%j is refused as %s', (words, rule) => expect(of(group, words)).toBe(rule));

  test('a group of several lines, or a piece where a line is meant', () => {
    expect(of('<g id="a"><line x2="1"/><line x2="2"/></g>', 'a')).toBe('part-several');
    expect(of('<rect id="a" class="piece" width="9" height="9"/>', 'a')).toBe('part-not-a-line');
  });

  test('hyphens and dots belong to a name', () =>
    expect(readMeasure('F-L.2–A-aft')).toEqual({ of: 'distance', names: ['F-L.2', 'A-aft'] }));

  test('each refusal says what to write instead', () => {
    const drawing = readDrawing(svg(group), 'a.svg').drawing;
    for (const words of ['x', 's height', 'D1 d1–s', 's d1']) {
      const result = measureNamed(drawing, words);
      if (result.ok) throw new Error(`${words} was measured`);
      expect(result.error.message).toMatch(/; (?:write|name|give) .+\.$/);
    }
  });
});

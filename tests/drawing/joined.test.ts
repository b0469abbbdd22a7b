import { describe, expect, test } from 'vitest';
import type { Drawing, Part } from '../../src/drawing/drawing.ts';
import { joined } from '../../src/drawing/joined.ts';
import { lengthsBetween, notchesOf } from '../../src/drawing/notches.ts';
import { readDrawing } from '../../src/drawing/read-drawing.ts';
import { own } from './own.ts';
import { svg } from './svg.ts';

const part = (drawing: Drawing, name: string): Part => {
  const found = drawing.parts.find(({ id }) => id === name);
  if (!found) throw new Error(`no ${name}`);
  return found;
};

/** An edge with notches at these millimetres from its start, drawn forwards or backwards. */
function edge(id: string, y: number, length: number, notches: readonly number[], backwards?: 'backwards'): string {
  const [from, to] = backwards ? [length, 0] : [0, length];
  const at = (along: number): number => (backwards ? length - along : along);
  const marks = notches.map((n, i) => `<path id="notch-${id}-${i}" class="notch" d="M${at(n) - 3} ${y}l3 3l3 -3"/>`);
  return `<line id="${id}" class="edge" x1="${from}" y1="${y}" x2="${to}" y2="${y}"/>${marks.join('')}`;
}

const lay = (...edges: readonly string[]) => {
  const { drawing } = readDrawing(svg(edges.join('')), 'a.svg');
  const result = joined(drawing, part(drawing, 'a'), part(drawing, 'b'));
  return result.ok
    ? result.value.map(({ lengths }) => lengths.map((length) => Number(length.toFixed(9))))
    : result.error.rule;
};

describe('notches along an edge', () => {
  const lining = own('lining');
  test('stand in their order from its start, single or double', () => {
    const notches = notchesOf(lining, part(lining, 'B-aft'));
    expect(notches).toEqual([
      { id: 'notch-B-aft-1', along: 210, away: 0 },
      { id: 'notch-B-aft-2', along: 650, away: 0 },
      { id: 'notch-B-aft-3', along: 1_050, away: 0 },
    ]);
    expect(lengthsBetween(notches, part(lining, 'B-aft'))).toEqual([210, 440, 400, 250]);
  });

  test('belong to the edge in their id and to no longer or shorter one', () => {
    const { drawing } = readDrawing(svg(edge('a', 0, 90, [10]) + edge('a-b', 50, 90, [20])), 'a.svg');
    expect(notchesOf(drawing, part(drawing, 'a')).map(({ id }) => id)).toEqual(['notch-a-0']);
    expect(notchesOf(drawing, part(drawing, 'a-b')).map(({ id }) => id)).toEqual(['notch-a-b-0']);
  });

  test('stand in that order whatever the order in which they were drawn, and may be holes', () => {
    const hole = (n: number, x: number): string => `<circle id="notch-a-${n}" class="notch" cx="${x}" cy="1" r="2"/>`;
    const { drawing } = readDrawing(svg(`${edge('a', 0, 90, [])}${hole(1, 70)}${hole(2, 20)}`), 'a.svg');
    expect(notchesOf(drawing, part(drawing, 'a'))).toEqual([
      { id: 'notch-a-2', along: 20, away: 1 },
      { id: 'notch-a-1', along: 70, away: 1 },
    ]);
  });

  test('on a slant or a bend, the place is the middle of the mouth, however the notch lies', () => {
    const turned = (angle: number) => {
      const inside = `<g transform="rotate(${angle})">${edge('a', 0, 100, [30])}</g>`;
      const { drawing } = readDrawing(svg(inside), 'a.svg');
      return notchesOf(drawing, part(drawing, 'a'))[0]?.along;
    };
    for (const angle of [0, 17, 45, 133]) expect(turned(angle)).toBeCloseTo(30, 9);
  });
});

describe('two edges laid notch to notch', () => {
  test('stretch by stretch', () =>
    expect(lay(edge('a', 0, 100, [30, 60]), edge('b', 50, 103, [30, 62]))).toEqual([
      [30, 30],
      [30, 32],
      [40, 41],
    ]));

  test('in the direction in which they fit, however they were drawn', () =>
    expect(lay(edge('a', 0, 100, [30]), edge('b', 50, 100, [70], 'backwards'))).toEqual([
      [30, 30],
      [70, 70],
    ]));

  test('without notches, end to end', () =>
    expect(lay(edge('a', 0, 100, []), edge('b', 50, 90, []))).toEqual([[100, 90]]));

  test('with unlike numbers of notches, not at all', () =>
    expect(lay(edge('a', 0, 100, [30]), edge('b', 50, 100, []))).toBe('notches-differ'));

  test('a notch that lies on another edge than its id says is told, not laid on its own', () => {
    const stray = edge('a', 0, 100, [30]) + edge('b', 50, 100, [70]).replace('M67 50', 'M67 0');
    expect(lay(stray)).toBe('notch-astray');
    const { drawing } = readDrawing(svg(stray), 'a.svg');
    const laid = joined(drawing, part(drawing, 'a'), part(drawing, 'b'));
    expect(laid.ok ? '' : laid.error.message).toBe(
      'notch-b-0 lies 50 mm beside b; draw it on that edge, or give it the id of the edge it is on.',
    );
  });

  test('the panels of the practice lining fit, and each stretch says where it is', () => {
    const lining = own('lining');
    for (const [a, b] of [
      ['A-aft', 'B-front'],
      ['B-aft', 'C-front'],
    ] as const) {
      const result = joined(lining, part(lining, a), part(lining, b));
      expect(result.ok && result.value.map(({ words }) => words)).toEqual([
        `the start to notch-${a}-1`,
        `notch-${a}-1 to notch-${a}-2`,
        `notch-${a}-2 to notch-${a}-3`,
        `notch-${a}-3 to the end`,
      ]);
      expect(result.ok && result.value.every(({ lengths: [one, two] }) => Math.abs(one - two) < 1e-9)).toBe(true);
    }
  });
});

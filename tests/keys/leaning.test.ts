import { expect, test } from 'vitest';
import type { Key } from '../../src/keys/key.ts';
import { afterLean, initialLean, lean, leanDeadline } from '../../src/keys/leaning.ts';

/** The presses that get through when Enter (or the key given) comes at these moments. */
function through(...moments: readonly (number | readonly [number, Key])[]): string {
  let state = initialLean;
  const out: Key[] = [];
  const tell = ([next, keys]: readonly [typeof state, readonly Key[]]): void => {
    state = next;
    out.push(...keys);
  };
  for (const moment of moments) {
    const [ms, key] = typeof moment === 'number' ? [moment, { key: 'enter', held: 'no' } as const] : moment;
    tell(lean(state, key, ms));
  }
  tell(afterLean(state, Number.POSITIVE_INFINITY));
  return out.map((key) => (key.key === 'enter' ? (key.held === 'yes' ? 'held' : 'press') : key.key)).join(' ');
}

test.each([
  ['one press', [0], 'press'],
  ['a person who presses quickly', [0, 150, 300, 450], 'press press press press'],
  ['a person who presses at a walking pace', [0, 600, 1200, 1800], 'press press press press'],
  ['a desktop keyboard leant on', [0, 500, 530, 560, 590], 'press held held held held'],
  ['a slow console leant on', [0, 250, 342, 434], 'press held held held'],
  ['a press after letting go', [0, 500, 530, 560, 900], 'press held held held press'],
  ['a whole chunk of Enters', [0, 0, 0], 'press held held'],
] as const)('%s', (_, moments, expected) => expect(through(...moments)).toBe(expected));

test('another key between two Enters makes them two presses, in order', () => {
  expect(through(0, [10, { key: 'text', text: 'x' }], 20)).toBe('press text press');
  expect(through(0, 500, [510, { key: 'escape' }])).toBe('press press escape');
});

test('only an Enter that may be the first repeat waits', () => {
  const [pressed] = lean(initialLean, { key: 'enter', held: 'no' }, 0);
  expect(leanDeadline(pressed)).toBeUndefined();
  const [waiting, out] = lean(pressed, { key: 'enter', held: 'no' }, 500);
  expect([leanDeadline(waiting), out]).toEqual([600, []]);
});

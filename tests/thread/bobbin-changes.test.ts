import fc from 'fast-check';
import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { bobbinChanges } from '../../src/thread/bobbin-changes.ts';

const mm = (metres: number): Fraction => new Fraction(Math.round(metres * 1000));

/** The steps of so many sets, one set after the other, and where bobbins of 30 m change. */
function changesIn(steps: readonly (readonly [step: number, metres: number])[], sets: number, left = 30) {
  const work = Array.from({ length: sets }, (_, set) =>
    steps.map(([step, metres]) => ({ place: { set: set + 1, step }, stretch: set + 1, takes: mm(metres) })),
  ).flat();
  const { changes, left: rest } = bobbinChanges(work, mm(30), mm(left));
  const said = changes.map(({ place: { set, step }, because, left: was, takes }) =>
    [set, step, because, was.div(1000).round(1).toString(), takes.div(1000).round(1).toString()].join(' '),
  );
  return [...said, `left ${rest.div(1000).round(1).toString()}`];
}

test('a set that fits a full bobbin is not begun on one that it empties', () => {
  const set = [
    [4, 6.04],
    [9, 16.17],
  ] as const;
  expect(changesIn(set, 2)).toEqual(['2 4 stretch 7.8 22.2', 'left 7.8']);
});

test('in a set that takes more than a bobbin it is changed before the step that would run out', () => {
  const cushion = [
    [3, 0.325],
    [4, 9.085],
    [5, 3.778],
    [6, 0.288],
    [7, 8.97],
    [8, 4.485],
    [9, 4.485],
  ] as const;
  expect(changesIn(cushion, 1)).toEqual(['1 9 step 3.1 4.5', 'left 25.5']);
});

test('a step that takes more than a full bobbin begins on a full one, and what is left after it is of its last', () => {
  expect(changesIn([[1, 65]], 1, 30)).toEqual(['1 1 within 30 65', 'left 25']);
  expect(changesIn([[1, 65]], 1, 12)).toEqual(['1 1 step 12 65', '1 1 within 30 65', 'left 25']);
});

test('no step begins on a bobbin that ends within it, but where none would do', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 100_000 }), { maxLength: 30 }),
      fc.integer({ min: 0, max: 30_000 }),
      (takes, left) => {
        const work = takes.map((each, at) => ({ place: at, stretch: Math.floor(at / 3), takes: new Fraction(each) }));
        const full = new Fraction(30_000);
        const { changes, left: end } = bobbinChanges(work, full, new Fraction(left));
        let rest = left;
        for (const [at, each] of takes.entries()) {
          if (changes.some(({ place, because }) => place === at && because !== 'within')) rest = 30_000;
          if (each <= 30_000) expect(each).toBeLessThanOrEqual(rest);
          else expect(rest).toBe(30_000);
          const within = changes.find(({ place, because }) => place === at && because === 'within');
          expect(within === undefined).toBe(each <= rest);
          rest += 30_000 * (within?.bobbins ?? 0) - each;
          // As many as it takes, and not one more.
          if (within) expect(rest).toBeLessThan(30_000);
          expect(rest).toBeGreaterThanOrEqual(0);
        }
        expect(end.valueOf()).toBe(rest);
      },
    ),
  );
});

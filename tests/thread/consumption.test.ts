import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { keptRatio, lockstitchRatio, threadFor } from '../../src/thread/consumption.ts';

/** The practice room reckons 2.5 to 1, half of it from the bobbin, and 15 % waste. */
const room = keptRatio(new Fraction('2.5'), new Fraction(50));
const bobbinMetres = (seams: readonly number[], sets: number): string =>
  threadFor(room, new Fraction(seams.reduce((sum, mm) => sum + mm, 0) * sets), new Fraction(15))
    .under.div(1000)
    .round(1)
    .toString();

test('the lining and the cushion of the practice room take what their seams come to (invented; sums checked by hand)', () => {
  const lining = [4203, 408, 800, 2520, 5040, 2480];
  expect(bobbinMetres(lining, 1)).toBe('22.2');
  const cushion = [226, 6320, 2628, 200, 6240, 3120, 3120];
  expect(bobbinMetres(cushion, 1)).toBe('31.4');
  // Of a bobbin of 30 m the closing seam of the second plate is left with 3.1 m.
  expect(bobbinMetres(cushion.slice(0, -1), 1)).toBe('26.9');
  expect(bobbinMetres([3120], 1)).toBe('4.5');
});

test('2.5 to 1 is the lockstitch in material a quarter as thick as the stitch is long', () => {
  const { needle, under } = lockstitchRatio(new Fraction(1), new Fraction(4));
  expect(needle.add(under).toString()).toBe('2.5');
  expect(needle.equals(under)).toBe(true);
});

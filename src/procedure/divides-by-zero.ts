import Fraction from 'fraction.js';
import { evaluate } from './evaluate.ts';
import type { Formula } from './formula.ts';

/**
 * Tells of formulas, in the order of the text, that divide by zero whatever is measured, such as `a / (b - b)`. Each is worked out with
 * several sets of readings that have nothing to do with each other: what is zero in all of them is zero always, but for a chance smaller
 * than that of a slip anywhere else.
 */
export function zeroDividers(): {
  readonly measured: (name: string) => void;
  /** Whether it always does; what it comes to is known by its name from then on. */
  readonly divides: (formula: Formula, name: string | null) => boolean;
} {
  const worlds = Array.from({ length: 3 }, () => new Map<string, Fraction>());
  let last = 1;
  const reading = (): Fraction => {
    last = (last * 48_271) % 2_147_483_647;
    return new Fraction(last, 1000);
  };
  return {
    measured: (name) => {
      for (const world of worlds) world.set(name, reading());
    },
    divides: (formula, name) => {
      const results = worlds.map((world) => evaluate(formula, world));
      for (const [index, result] of results.entries())
        if (name !== null && result.ok) worlds[index]?.set(name, result.value);
      return results.every((result) => !result.ok && result.error.rule === 'division-by-zero');
    },
  };
}

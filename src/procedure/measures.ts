import { readMeasure } from '../drawing/measure.ts';
import { type UnitId, unitKind } from '../measure/unit.ts';
import { cut, originOf, type Passage } from './passage.ts';
import type { Reading } from './reading.ts';

interface Measures {
  /** What stands before `of`. */
  readonly limit: string;
  readonly names: readonly string[];
}

/**
 * Parts `360 ±2 of D1–D2, D2–D3`: the limit, and the lengths of the drawing that it is of. Whether the drawing has them is for
 * proofreading to say. `undefined` when something was noted.
 */
export function readMeasures(inside: Passage, unit: UnitId, reading: Reading): Measures | undefined {
  const of = /(?:^|\s)of\s+/i.exec(inside.text);
  if (of === null) return { limit: inside.text, names: [] };
  const start = of.index + of[0].length;
  const names = inside.text.slice(start).split(/\s*,\s*/);
  const say = (rule: string, at: number, found: string, message: string, mend: string): undefined => {
    reading.note({ rule, at: originOf(cut(inside, at), 0), message, found, mend });
    return undefined;
  };
  const whole = inside.text.slice(start);
  if (unitKind(unit) !== 'length') {
    const message = `A drawing gives lengths, and ${unit} is none.`;
    return say(
      'measure-no-length',
      start,
      whole,
      message,
      'Give the blank the unit mm, or leave out of and what follows.',
    );
  }
  const wrong = names.find((name) => readMeasure(name) === undefined);
  if (wrong !== undefined) {
    const mend =
      'Write an id of the drawing, two with – or to between them, or one with width, depth, d1 or d2 behind it.';
    const at = start + Math.max(0, whole.indexOf(wrong));
    return say('measure-unreadable', at, wrong || whole, 'This names no length of a drawing.', mend);
  }
  return { limit: inside.text.slice(0, of.index).trim(), names };
}

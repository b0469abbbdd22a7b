import { assertNever } from '../base/assert-never.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { boxOf } from './box.ts';
import { cornersOf } from './corners.ts';
import { between } from './curve.ts';
import { distancesBetween } from './distance.ts';
import type { Drawing, Part } from './drawing.ts';
import { lengthOf } from './length.ts';
import { type Measure, readMeasure } from './measure.ts';
import { partsNamed } from './named-part.ts';
import { astray, edgeOfNotch, notchesOf } from './notches.ts';

/**
 * Measures in a drawing what a supervisor names, in millimetres: one number, or the three of a distance, at both ends and the middle. Of
 * two notches on one edge it is the length along it. Refused as `measure-unreadable`, `part-missing`, `part-several`,
 * `part-not-a-line`, `distance-askew`, `distance-broken`, `notch-astray` or `corners-not-four`; the sentence says what to write instead.
 */
export function measureNamed(drawing: Drawing, words: string): Result<readonly number[]> {
  const named = readMeasure(words);
  if (named === undefined) {
    return refuse(
      'measure-unreadable',
      `${words} names nothing to measure; write an id, two ids with – or to between them, or an id with width, depth, d1 or d2 behind it.`,
    );
  }
  const said = (result: Result<readonly number[]>): Result<readonly number[]> =>
    result.ok ? result : refuse(result.error.rule, `${words} cannot be measured: ${result.error.message}`);
  if (named.of === 'distance') {
    const [first, second] = [one(drawing, named.names[0], named.of), one(drawing, named.names[1], named.of)];
    if (!first.ok) return first;
    return second.ok ? said(apart(drawing, first.value, second.value)) : second;
  }
  const found = one(drawing, named.name, named.of);
  if (!found.ok) return found;
  const { path } = found.value;
  switch (named.of) {
    case 'length':
      return ok([lengthOf(path)]);
    case 'width':
      return ok([boxOf(path).width]);
    case 'depth':
      return ok([boxOf(path).height]);
    case 'd1':
    case 'd2':
      return said(diagonal(path, named.of));
    default:
      return assertNever(named);
  }
}

/** The one part that is meant where a group was named: its piece for a size, its line for anything else. */
function one(drawing: Drawing, name: string, of: Measure['of']): Result<Part> {
  const parts = partsNamed(drawing, name);
  if (parts.length === 0)
    return refuse(
      'part-missing',
      `The drawing has no ${name}; write the id of a part of it, or two with – or to between them.`,
    );
  const isOfLine = of === 'length' || of === 'distance';
  const fit = parts.filter(({ kind }) => (isOfLine ? kind !== 'piece' : kind === 'piece'));
  const [part, more] = fit.length > 0 ? fit : parts;
  if (part === undefined || more !== undefined) {
    return refuse(
      'part-several',
      `${name} has ${fit.length || parts.length} parts; give the one that is meant an id, and write that.`,
    );
  }
  if (isOfLine && part.kind === 'piece') {
    return refuse('part-not-a-line', `${name} is a piece; write ${name} width, depth, d1 or d2, or the id of a line.`);
  }
  return ok(part);
}

function apart(drawing: Drawing, first: Part, second: Part): Result<readonly number[]> {
  const edge =
    first.kind === 'notch' && second.kind === 'notch' && first.id !== null ? edgeOfNotch(first.id) : undefined;
  const along = drawing.parts.find(({ id }) => edge !== undefined && id === edge);
  const places = along === undefined ? [] : notchesOf(drawing, along);
  const two = [first, second].flatMap((notch) => places.find(({ id }) => id === notch.id) ?? []);
  const [from, to] = two;
  if (along === undefined || from === undefined || to === undefined) return distancesBetween(first.path, second.path);
  return astray(two, along) ?? ok([Math.abs(to.along - from.along)]);
}

function diagonal(path: string, which: 'd1' | 'd2'): Result<readonly number[]> {
  const corners = cornersOf(path);
  if (!corners.ok) return corners;
  const [upperLeft, upperRight, lowerRight, lowerLeft] = corners.value;
  return ok([which === 'd1' ? between(upperLeft, lowerRight) : between(upperRight, lowerLeft)]);
}

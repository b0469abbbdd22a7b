import { ok, type Result, refuse } from '../base/result.ts';
import { nearestAlong, placeAlong } from './along.ts';
import { between, type Point, runsOf } from './curve.ts';
import { lengthOf } from './length.ts';
import { placeOf } from './place.ts';
import { offLine, straightLine } from './straight.ts';

/**
 * How far two parts lie apart, in millimetres, as a tape is laid: square to the longer one, from the start, the middle and the end of the
 * shorter. One number when either is a place (a notch, a cross). A straight line is taken to go on beyond its ends; where the
 * tape would not meet a bent one squarely it is refused as `distance-askew`, and as `distance-broken` for a line of several strokes.
 */
export function distancesBetween(first: string, second: string): Result<readonly number[]> {
  const [a, b] = [placeOf(first), placeOf(second)];
  if ((a === null && isBroken(first)) || (b === null && isBroken(second))) {
    const why = 'one of the two is drawn in several strokes';
    return refuse('distance-broken', `${why}; give the stroke that is meant an id of its own, and name that.`);
  }
  if (a !== null && b !== null) return ok([between(a, b)]);
  if (a !== null) return all([a], second);
  if (b !== null) return all([b], first);
  const [shorter, longer] = lengthOf(first) <= lengthOf(second) ? [first, second] : [second, first];
  const length = lengthOf(shorter);
  const places = [0, length / 2, length].map((along) => placeAlong(shorter, along));
  return all(
    places.filter((place) => place !== undefined),
    longer,
  );
}

const isBroken = (path: string): boolean => runsOf(path).length > 1;

function all(places: readonly Point[], path: string): Result<readonly number[]> {
  const line = straightLine(path);
  const distances: number[] = [];
  for (const place of places) {
    const nearest = line === undefined ? nearestAlong(path, place) : undefined;
    if (line !== undefined) distances.push(Math.abs(offLine(...line, place)));
    else if (nearest?.square) distances.push(nearest.away);
    else {
      const why = 'the two do not lie side by side from end to end';
      return refuse('distance-askew', `${why}; name two lines that do, or two notches.`);
    }
  }
  return ok(distances);
}

import { ok, type Result, refuse } from '../../base/result.ts';
import { MOST_COMMANDS } from '../path-in-place.ts';
import { type Entity, entitiesOf } from './entities.ts';
import { gather } from './gather.ts';
import { type LeftOut, tally } from './left-out.ts';
import { partedByOutlines } from './parted-by-outlines.ts';
import { type PatternPiece, pieceOf } from './piece.ts';
import { readTags } from './tags.ts';
import { INCH, unitsSaid } from './units.ts';

export interface Pattern {
  readonly pieces: readonly PatternPiece[];
  /** Millimetres of one unit of the file. */
  readonly perUnit: number;
  /** The same by what the file says itself; `null` where it says nothing, or two things. */
  readonly perUnitSaid: number | null;
  /** Everything of the file that is not in the pieces, or not as it was meant. */
  readonly leftOut: readonly LeftOut[];
}

/**
 * Reads a pattern from an ASCII DXF file with the layers of ASTM D6673. `units` is what somebody says of the file, and counts before what it
 * says itself. Never throws. Refused as `pattern-empty`, as `dxf-large`, and as `readTags`, `unitsSaid`
 * and `gather` refuse.
 */
export function readPattern(text: string, units: 'mm' | 'in' | null): Result<Pattern> {
  const tags = readTags(text);
  if (!tags.ok) return tags;
  const file = entitiesOf(tags.value);
  const said = unitsSaid(file);
  const counts = units === null ? said : ok(units === 'in' ? INCH : 1);
  if (!counts.ok) return counts;
  const perUnit = counts.value;
  const left = tally();
  const groups = gather(file, perUnit, left);
  if (!groups.ok) return groups;
  const points = groups.value.flatMap(({ items }) => items.map(({ entity }) => pointsOf(entity)));
  if (points.reduce((sum, each) => sum + each, 0) > MOST_COMMANDS) return refuse('dxf-large', LARGE);
  const pieces = groups.value.flatMap(partedByOutlines).map((group) => pieceOf(group, left));
  const drawn = pieces.filter(({ parts, labels }) => parts.length > 0 || labels.length > 0);
  if (drawn.every(({ parts }) => parts.length === 0)) {
    return refuse(
      'pattern-empty',
      'There is nothing in this file that could be drawn; export it with its lines, as ASCII DXF, release 12.',
    );
  }
  if (drawn.reduce((sum, { parts, labels }) => sum + parts.length + labels.length + 2, 0) > MOST_DRAWN)
    return refuse('dxf-large', LARGE);
  return ok({ pieces: drawn, perUnit, perUnitSaid: said.ok ? said.value : null, leftOut: left.list() });
}

/** Lines and words of a drawing, which is read again with no more elements than this. */
const MOST_DRAWN = 4_500;
const LARGE = 'This file draws more than one drawing can hold; export fewer pieces at once.';

const pointsOf = ({ type, vertices, tags }: Entity): number =>
  type === 'LWPOLYLINE' ? tags.filter(({ code }) => code === 10).length : (vertices?.length ?? 0);

import { around, boxOf } from '../drawing/box.ts';
import { straightSides } from '../drawing/corners.ts';
import { curvesOf, type Point, runsOf } from '../drawing/curve.ts';
import type { Box, Drawing, Part } from '../drawing/drawing.ts';
import { flatten } from '../drawing/flatten.ts';
import { lengthOf } from '../drawing/length.ts';
import { nameOf, partsNamed } from '../drawing/named-part.ts';
import { awayFrom, isInside } from '../drawing/polygon.ts';
import { straightLine } from '../drawing/straight.ts';
import { apart, type Stretch } from './apart.ts';
import { standingOf, type Wanted } from './standing.ts';

/** What there is to say of something that a picture brings out. Lengths are in millimetres, to a tenth; none without a scale. */
export interface AboutPart {
  /** As the picture's fragment has it. */
  readonly name: string;
  readonly title: string | null;
  /** Of a group that nothing holds together, how many parts it has; `null` for anything else. */
  readonly parts: number | null;
  readonly size: { readonly length: number } | { readonly width: number; readonly height: number } | null;
  /** Ids of the pieces it lies on as a whole, the smallest first. */
  readonly on: readonly string[];
  /** The nearest edge of a piece it lies on that runs beside it. */
  readonly edge: NearEdge | null;
  readonly done: 'sewn' | 'open';
}

export interface NearEdge {
  readonly distance: number;
  /** The title of the edge where the drawing has one, else which side of which piece it is, on the drawing. */
  readonly is: { readonly title: string } | { readonly side: Side; readonly of: string };
}

type Side = 'upper' | 'lower' | 'left' | 'right';

/** Whether a millimetre of the drawing is one of the cloth. */
export type Scale = 'to scale' | 'not to scale';

/** What a picture brings out, in words that need no picture: each thing that its fragment names and the drawing has. */
export function aboutParts(drawing: Drawing, wanted: Wanted, scale: Scale): readonly AboutPart[] {
  return wanted.broughtOut.flatMap((name) => aboutPart(drawing, name, wanted, scale) ?? []);
}

/** `null` when the drawing has nothing of that name. */
function aboutPart(drawing: Drawing, name: string, wanted: Wanted, scale: Scale): AboutPart | null {
  const parts = partsNamed(drawing, name);
  const box = around(parts.map(({ path }) => boxOf(path)));
  if (box === null) return null;
  const one = parts.length === 1 ? parts[0] : undefined;
  const line = one ? straightLine(one.path) : undefined;
  const pieces = piecesUnder(drawing, parts);
  const seams = parts.filter(({ kind }) => kind === 'seam');
  const size = sizeOf(parts, box);
  const isSewn = seams.length > 0 && seams.every((seam) => standingOf(seam, wanted) === 'brought out, sewn');
  return {
    name,
    title: parts.find(({ id }) => id === name)?.title ?? null,
    parts: size === null && parts.length > 1 && !parts.some(isNotch) ? parts.length : null,
    size: scale === 'to scale' ? size : null,
    on: pieces.map(({ id }) => id),
    edge: line && scale === 'to scale' ? nearest(drawing, line, pieces) : null,
    done: isSewn ? 'sewn' : 'open',
  };
}

/**
 * A seam or a single line has a length; a piece, and a group that one outline encloses, measure so much across and down. Nobody is
 * told the size of a notch, of the air between several things, or of what the drawing does not say what it is: a detail may be drawn
 * ten times larger.
 */
function sizeOf(parts: readonly Part[], box: Box): AboutPart['size'] {
  if (parts.some(isNotch)) return null;
  const [one, ...more] = parts;
  const hasLength = one && more.length === 0 && (one.kind === 'seam' || isLine(one));
  if (hasLength) return { length: tenth(lengthOf(one.path)) };
  if (parts.every(({ kind }) => kind === 'other')) return null;
  const encloses = ({ path }: Part): boolean => {
    const { width, height } = boxOf(path);
    return width >= box.width * MOSTLY && height >= box.height * MOSTLY;
  };
  return parts.some(encloses) ? { width: tenth(box.width), height: tenth(box.height) } : null;
}

const isNotch = ({ kind }: Part): boolean => kind === 'notch';

/** A webbing or a seam may stick out of the piece it is drawn with. */
const MOSTLY = 0.9;

const isLine = ({ kind, path }: Part): boolean =>
  straightLine(path) !== undefined || ((kind === 'mark' || kind === 'edge') && runsOf(path).length === 1);

interface Piece {
  readonly id: string;
  readonly sides: readonly Stretch[];
}

/** The pieces on which all of it lies; nothing lies on itself. */
function piecesUnder(drawing: Drawing, parts: readonly Part[]): readonly Piece[] {
  const stretches = parts.flatMap(({ path }) => curvesOf(path));
  const every = Math.ceil(stretches.length / MOST_STRETCHES);
  const spots = stretches.filter((_, nth) => nth % every === 0).flatMap(({ at }) => ALONG.map(at));
  return drawing.parts
    .flatMap((part) => {
      if (part.kind !== 'piece' || parts.includes(part)) return [];
      const id = nameOf(part);
      const [outline = []] = flatten(part.path, SAME / 10);
      const lies = (spot: Point): boolean => isInside(outline, spot) || awayFrom(outline, spot) < SAME;
      if (id === undefined || !spots.every(lies)) return [];
      const { width, height } = boxOf(part.path);
      // An outline closes by itself, whether that side was drawn or not.
      const [run] = runsOf(`${part.path}Z`);
      return [{ id, sides: straightSides(run?.curves ?? []), area: width * height }];
    })
    .sort((a, b) => a.area - b.area);
}

/** Where to look along each stretch of a line, never at its end: a seam often ends a hair beyond the edge it runs to. */
const ALONG = [0.01, 0.25, 0.5, 0.75, 0.99];

/** A line that was traced in thousands of stretches is looked at along so many, evenly: each place is held against each side of each piece. */
const MOST_STRETCHES = 200;

/** An edge that the drawing draws as such is what people measure from; only without one a side of the outline is. */
function nearest(drawing: Drawing, line: Stretch, pieces: readonly Piece[]): NearEdge | null {
  const sides = pieces.flatMap(({ id, sides }) => sides.map((side) => ({ side, of: id })));
  const named = drawing.parts.flatMap(({ kind, id, title, path }) => {
    const edge = kind === 'edge' ? straightLine(path) : undefined;
    const isOfPiece = edge && sides.some(({ side }) => (apart(edge, side) ?? SAME) < SAME);
    return isOfPiece ? nearEdge(line, edge, { title: title ?? id ?? '' }) : [];
  });
  const unnamed = sides.flatMap(({ side, of }) => nearEdge(line, side, { side: sideOf(line, side), of }));
  const [best] = (named.length > 0 ? named : unnamed).toSorted((a, b) => a.distance - b.distance);
  return best ? { ...best, distance: tenth(best.distance) } : null;
}

/** Millimetres: what lies no further from an outline lies on it. */
const SAME = 0.5;

function nearEdge(line: Stretch, edge: Stretch, is: NearEdge['is']): readonly NearEdge[] {
  const distance = apart(line, edge);
  return distance === null ? [] : [{ distance, is }];
}

/** On which side of a line an edge lies, on the drawing. */
function sideOf(line: Stretch, edge: Stretch): Side {
  const [across, down] = [middle(edge)[0] - middle(line)[0], middle(edge)[1] - middle(line)[1]];
  if (Math.abs(line[1][0] - line[0][0]) >= Math.abs(line[1][1] - line[0][1])) return down < 0 ? 'upper' : 'lower';
  return across < 0 ? 'left' : 'right';
}

const middle = ([[x0, y0], [x1, y1]]: Stretch): readonly [number, number] => [(x0 + x1) / 2, (y0 + y1) / 2];

const tenth = (length: number): number => Math.round(length * 10) / 10;

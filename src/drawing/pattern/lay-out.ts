import { around, boxOf } from '../box.ts';
import type { Box } from '../drawing.ts';
import { pathInPlace } from '../path-in-place.ts';
import type { PatternPiece } from './piece.ts';

/** Millimetres between pieces that are laid beside each other, and round them all. */
const GAP = 40;

/** So many are laid in a row unseen: each would be held against each. */
const MANY = 500;

/**
 * Pieces where nothing of one lies on another: as the file has them when that is so there, else beside each other in a row. In either case
 * all of it begins at the margin.
 */
export function layOut(pieces: readonly PatternPiece[]): {
  readonly pieces: readonly PatternPiece[];
  readonly box: Box;
} {
  const boxes = pieces.map(boxOfPiece);
  const overlap = boxes.length > MANY || boxes.some((a, i) => boxes.some((b, j) => i < j && overlaps(a, b)));
  const whole = around(boxes) ?? NOTHING;
  let next = GAP;
  const laid = pieces.map((piece, index) => {
    const box = boxes[index] ?? whole;
    if (!overlap) return shifted(piece, GAP - whole.x, GAP - whole.y);
    const x = next;
    next += box.width + GAP;
    return shifted(piece, x - box.x, GAP - box.y);
  });
  const { x, y, width, height } = around(laid.map(boxOfPiece)) ?? NOTHING;
  return { pieces: laid, box: { x: 0, y: 0, width: x + width + GAP, height: y + height + GAP } };
}

/** A piece without lines is where its words begin. */
const boxOfPiece = ({ parts, labels }: PatternPiece): Box =>
  around(parts.map(({ path }) => boxOf(path))) ??
  around(labels.map(({ x, y }) => ({ x, y, width: 0, height: 0 }))) ??
  NOTHING;

const NOTHING: Box = { x: 0, y: 0, width: 0, height: 0 };

const overlaps = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

const shifted = (piece: PatternPiece, dx: number, dy: number): PatternPiece => ({
  ...piece,
  parts: piece.parts.map((part) => {
    const path = pathInPlace(part.path, [1, 0, 0, 1, dx, dy]);
    return path.ok ? { ...part, path: path.value.path } : part;
  }),
  labels: piece.labels.map((label) => ({ ...label, x: label.x + dx, y: label.y + dy })),
});

import { around, middleOf } from '../drawing/box.ts';
import type { Box } from '../drawing/drawing.ts';

/**
 * The part of a drawing to show in an area of this shape (width to height): what is brought out, with a margin and enough around
 * it to know where one is; the whole drawing where coming nearer would gain little. It may be larger than the drawing, never of
 * another shape than the area.
 */
export function viewOf(whole: Box, broughtOut: readonly Box[], shape: number): Box {
  const all = ofShape(whole, shape);
  const target = around(broughtOut);
  if (target === null) return all;
  const middle = middleOf(target);
  const margin = MARGIN * Math.max(target.width, target.height);
  const wanted = around([
    grown(target, margin, margin),
    grown({ x: middle[0], y: middle[1], width: 0, height: 0 }, whole.width * AROUND, whole.height * AROUND),
  ]);
  const near = ofShape(wanted ?? target, shape);
  if (near.width * WORTH > all.width) return all;
  return {
    ...near,
    x: kept(near.x, near.width, whole.x, whole.width),
    y: kept(near.y, near.height, whole.y, whole.height),
  };
}

/** Room beside what is brought out, as a part of its length. */
const MARGIN = 0.08;

/** At least this part of the drawing is seen to each side of the middle of what is brought out. */
const AROUND = 0.18;

/** Less than this much larger is not worth losing sight of the rest. */
const WORTH = 1.25;

const grown = ({ x, y, width, height }: Box, across: number, down: number): Box => ({
  x: x - across,
  y: y - down,
  width: width + 2 * across,
  height: height + 2 * down,
});

/** The smallest box of this shape around the middle of a box. */
function ofShape(box: Box, shape: number): Box {
  const width = Math.max(box.width, box.height * shape, Number.MIN_VALUE);
  return grown(box, (width - box.width) / 2, (width / shape - box.height) / 2);
}

/** Moved so that no empty room outside the drawing is shown while there is something to see; in the middle when it is larger. */
function kept(start: number, length: number, from: number, whole: number): number {
  if (length >= whole) return from - (length - whole) / 2;
  return Math.min(Math.max(start, from), from + whole - length);
}

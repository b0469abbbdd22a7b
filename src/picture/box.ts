import type { Box, Label } from '../drawing/drawing.ts';

/** About where the letters of a label stand: nobody knows the width of letters before they are drawn. */
export function boxOfLabel({ words, x, y, height, anchor }: Label): Box {
  const width = words.length * height * 0.6;
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
  return { x: left, y: y - height, width, height };
}

export const holds = ({ x, y, width, height }: Box, px: number, py: number): boolean =>
  px >= x && px <= x + width && py >= y && py <= y + height;

/** Whether two boxes touch; lines have boxes without width or height. */
export const meet = (one: Box, other: Box): boolean =>
  one.x <= other.x + other.width &&
  other.x <= one.x + one.width &&
  one.y <= other.y + other.height &&
  other.y <= one.y + one.height;

/** What two boxes have in common; without width or height when that is nothing. */
export function overlap(one: Box, other: Box): Box {
  const [x, y] = [Math.max(one.x, other.x), Math.max(one.y, other.y)];
  const width = Math.min(one.x + one.width, other.x + other.width) - x;
  const height = Math.min(one.y + one.height, other.y + other.height) - y;
  return { x, y, width: Math.max(0, width), height: Math.max(0, height) };
}

import { SVGPathData } from 'svg-pathdata';
import type { Box } from './drawing.ts';

/** The smallest upright box around a part's path. */
export function boxOf(path: string): Box {
  const { minX, minY, maxX, maxY } = new SVGPathData(path).getBounds();
  return { x: minX, y: minY, width: maxX - minX, height: maxY - minY };
}

/** The smallest box around everything; `null` when there is nothing. */
export function around(boxes: readonly Box[]): Box | null {
  if (boxes.length === 0) return null;
  const x = Math.min(...boxes.map((one) => one.x));
  const y = Math.min(...boxes.map((one) => one.y));
  const right = Math.max(...boxes.map((one) => one.x + one.width));
  const bottom = Math.max(...boxes.map((one) => one.y + one.height));
  return { x, y, width: right - x, height: bottom - y };
}

export const middleOf = ({ x, y, width, height }: Box): readonly [number, number] => [x + width / 2, y + height / 2];

import { SVGPathData } from 'svg-pathdata';
import type { Box } from './drawing.ts';

/** The smallest upright box around a part's path. */
export function boxOf(path: string): Box {
  const { minX, minY, maxX, maxY } = new SVGPathData(path).getBounds();
  return { x: minX, y: minY, width: maxX - minX, height: maxY - minY };
}

export const middleOf = ({ x, y, width, height }: Box): readonly [number, number] => [x + width / 2, y + height / 2];

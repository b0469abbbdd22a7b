import { arcLength } from './arc-length.ts';
import { curvesOf } from './curve.ts';

/** Length along a part's path in millimetres; of several runs, all together. */
export const lengthOf = (path: string): number => curvesOf(path).reduce((total, curve) => total + arcLength(curve), 0);

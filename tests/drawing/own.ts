import { readFileSync } from 'node:fs';
import type { Drawing } from '../../src/drawing/drawing.ts';
import { readDrawing } from '../../src/drawing/read-drawing.ts';

/** One of the program's own drawings, such as `lining`. */
export const own = (name: string): Drawing =>
  readDrawing(readFileSync(new URL(`../../media/${name}.svg`, import.meta.url), 'utf8'), `${name}.svg`).drawing;

import { readFileSync } from 'node:fs';
import type { Drawing } from '../../src/drawing/drawing.ts';
import { readDrawing } from '../../src/drawing/read-drawing.ts';

/** A drawing of the demo room. */
export const readSample = (name: string): Drawing =>
  readDrawing(readFileSync(`media/${name}.svg`, 'utf8'), `media/${name}.svg`).drawing;

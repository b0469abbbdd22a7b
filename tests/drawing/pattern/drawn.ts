import { expect } from 'vitest';
import type { Part } from '../../../src/drawing/drawing.ts';
import { measureNamed } from '../../../src/drawing/measure-named.ts';
import { patternSvg } from '../../../src/drawing/pattern/pattern-svg.ts';
import { type Pattern, readPattern } from '../../../src/drawing/pattern/read-pattern.ts';
import { isToScale, readDrawing } from '../../../src/drawing/read-drawing.ts';
import { polyline } from './dxf.ts';

export function pattern(file: string, said: 'mm' | 'in' | null = 'mm'): Pattern {
  const read = readPattern(file, said);
  if (!read.ok) throw new Error(read.error.message);
  return read.value;
}

/** The pattern as the drawing that is made of it. */
export function drawn(file: string, said: 'mm' | 'in' | null = 'mm') {
  const read = readDrawing(patternSvg(pattern(file, said), 'Strap & patch'), 'a.svg');
  expect(read.findings).toEqual([]);
  expect(isToScale(read)).toBe(true);
  const part = (id: string): Part => {
    const found = read.drawing.parts.find((each) => each.id === id);
    if (!found) throw new Error(`no ${id} among ${[...read.ids].join(' ')}`);
    return found;
  };
  const measure = (words: string): number => {
    const measured = measureNamed(read.drawing, words);
    if (!measured.ok) throw new Error(measured.error.message);
    return Number((measured.value[0] ?? Number.NaN).toFixed(3));
  };
  return { ...read, part, measure };
}

export const refused = (file: string, said: 'mm' | 'in' | null = 'mm'): string => {
  const read = readPattern(file, said);
  return read.ok ? 'read' : read.error.rule;
};

export const closed = (x: number, y: number, width: number, height: number, layer: string | number = 1) =>
  polyline(
    layer,
    [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ],
    1,
  );

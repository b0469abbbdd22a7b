import { expect, test } from 'vitest';
import type { Drawing } from '../../src/drawing/drawing.ts';
import { drawSvg } from '../../src/picture/draw-svg.ts';

const paper = { is: 'light', colour: '#ffffff' } as const;
const cell = { width: 10, height: 20 };
const seam = { id: 'S', groups: [], kind: 'seam', title: null, path: 'M0 50 L100 50' } as const;
const piece = { id: 'A', groups: [], kind: 'piece', title: null, path: 'M0 0 L100 0 L100 100 L0 100 Z' } as const;
const drawing: Drawing = {
  title: null,
  box: { x: 0, y: 0, width: 100, height: 100 },
  parts: [seam, piece],
  labels: [{ words: 'A & "B" <b>\x1b[2J', x: 50, y: 30, height: 8, anchor: 'middle' }],
};
const area = { columns: 40, rows: 20 };

const strokes = (svg: string): readonly (readonly string[])[] =>
  [
    ...svg.matchAll(/<path d="([^"]*)" stroke="([^"]*)" stroke-width="([^"]*)"(?: stroke-dasharray="([^"]*)")?\/>/g),
  ].map(([, path = '', colour = '', width = '', dashes = '']) => [path, colour, width, dashes]);

test('what is brought out is heavy and lies above, sewn seams are dashed', () => {
  const [first, second] = strokes(drawSvg(drawing, area, cell, { broughtOut: ['S'], sewn: [] }, paper));
  expect([first?.[0], second?.[0]]).toEqual(['M0 0L400 0L400 400L0 400L0 0', 'M0 200L400 200']);
  expect(Number(second?.[2])).toBeGreaterThan(3 * Number(first?.[2]));
  const [around, sewn] = strokes(drawSvg(drawing, area, cell, { broughtOut: [], sewn: ['S'] }, paper));
  expect(sewn?.[3]).toMatch(/^[\d.]+ [\d.]+$/);
  expect(around?.[3]).toBe('');
});

test('lines and words stand out from the ground, dark or light', () => {
  const wanted = { broughtOut: ['S'], sewn: [] };
  expect(drawSvg(drawing, area, cell, wanted, paper)).toContain('stroke="#000000"');
  const dark = drawSvg(drawing, area, cell, wanted, { is: 'dark', colour: '#101014' });
  expect(dark).toContain('stroke="#ffffff"');
  expect(dark).toContain('fill="#101014"');
});

test('words from outside are words', () => {
  const svg = drawSvg(drawing, area, cell, { broughtOut: [], sewn: [] }, paper);
  expect(svg).toContain('A &#38; &#34;B&#34; &#60;b&#62;␛[2J</text>');
  expect(svg).not.toMatch(/[\x00-\x09\x0b-\x1f]/);
});

test('the drawing keeps its shape where cells are of another shape, in the middle', () => {
  const svg = drawSvg(drawing, area, { width: 10, height: 16 }, { broughtOut: [], sewn: [] }, paper);
  expect(svg).toContain('width="400" height="320"');
  expect(svg).toContain('d="M40 0L360 0L360 320L40 320L40 0"');
});

test('what is out of sight is left out', () => {
  const far = { ...seam, id: 'far', path: 'M500 500 L600 500' };
  const svg = drawSvg({ ...drawing, parts: [far, piece] }, area, cell, { broughtOut: [], sewn: [] }, paper);
  expect(strokes(svg)).toHaveLength(1);
});

test('thousands of curves that lead a kilometre away are few lines once they are drawn', () => {
  const path = `M0 0${'C900000 900000 -900000 900000 1 1C-900000 -900000 900000 -900000 0 0'.repeat(5_000)}`;
  const far: Drawing = { ...drawing, parts: [{ ...seam, path }] };
  const svg = drawSvg(far, area, cell, { broughtOut: ['S'], sewn: [] }, paper);
  const [[data = ''] = []] = strokes(svg);
  expect(data).toMatch(/^M[\dML. ]+$/);
  expect(Math.max(...(data.match(/[\d.]+/g) ?? []).map(Number))).toBeLessThanOrEqual(400);
  expect(data.length).toBeLessThan(1_000_000);
});

test('a picture ends with a whole pixel: of half a one the ground would be another', () => {
  const svg = drawSvg(drawing, area, { width: 9.27, height: 18.53 }, { broughtOut: [], sewn: [] }, paper);
  expect(svg).toContain('width="370" height="370" viewBox="0 0 370 370"');
  expect(svg).toContain('<rect width="370" height="370"');
});

import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { isToScale, readDrawing } from '../../src/drawing/read-drawing.ts';

const media = new URL('../../media/', import.meta.url);
const names = readdirSync(media).filter((name) => name.endsWith('.svg') && !name.endsWith('-screen.svg'));

test.each(names)('%s is read to scale and without a finding', (name) => {
  const read = readDrawing(readFileSync(new URL(name, media), 'utf8'), name);
  expect(read.findings).toEqual([]);
  expect(isToScale(read)).toBe(true);
  expect(read.drawing.parts.filter(({ kind }) => kind === 'notch').filter(({ id }) => id === null)).toEqual([]);
});

test('there are drawings', () => expect(names.length).toBeGreaterThan(3));

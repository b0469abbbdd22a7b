import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { measurable } from '../../src/drawing/measurable.ts';
import { readProcedure } from '../../src/procedure/read-procedure.ts';
import { procedureThread } from '../../src/thread/procedure-thread.ts';
import { svg } from '../drawing/svg.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const seam = (length: number) => svg(`<line id="T1" class="seam" x1="0" y1="5" x2="${length}" y2="5"/>`);
const text = `---
procedure: T-1
title: Strap
---

## Sew the front

- Seams: T1, stitch 301 at 4.0 mm

![Front](front.svg)

- [ ] Sewn

## Sew the back

- Seams: T1, stitch 301 at 4.0 mm

![Back](back.svg)

- [ ] Sewn

## Sew what has no picture

- Seams: T1 T2, stitch 301 at 4.0 mm

- [ ] Sewn
`;
const room = {
  bobbin: null,
  waste: new Fraction(0),
  ratios: new Map([['301', { ratio: new Fraction(2.5), needleShare: new Fraction(50), source: 'test' }]]),
};

test('a seam is that of its own step’s drawing, and without one that of any', () => {
  const { drawings } = measurable([
    ['front.svg', bytes(seam(100))],
    ['back.svg', bytes(seam(40))],
  ]);
  const steps = procedureThread(readProcedure(text, 'T-1.md').procedure, drawings, room);
  expect(steps.map(({ length }) => length.toString())).toEqual(['100', '40', '100']);
  expect(steps.map(({ unknown }) => unknown.length)).toEqual([0, 0, 1]);
});

test('what is not drawn in millimetres is not measured, and a photograph is no drawing', () => {
  const { drawings, others } = measurable([
    ['front.svg', bytes(seam(100))],
    ['loose.svg', bytes(seam(100).replace('width="200mm"', 'width="200px"'))],
    ['bad.SVG', bytes('no drawing')],
    ['photo.jpg', bytes('x')],
  ]);
  expect([...drawings.keys()]).toEqual(['front.svg']);
  expect(others.map(({ address }) => address)).toEqual(['loose.svg', 'bad.SVG']);
});

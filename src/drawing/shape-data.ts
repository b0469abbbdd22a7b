import type { XmlElement } from '@rgrove/parse-xml';
import { readNumber, readNumbers } from './numbers.ts';
import { pointsPath, shapePath } from './shape-path.ts';

/** What is wrong with an element, or with one attribute of it. */
export interface Fault {
  readonly rule: string;
  readonly attribute: string | null;
  readonly message: string;
  readonly mend: string;
  /** An error where it is left out. */
  readonly severity?: 'warning';
}

export type ShapeName = 'path' | 'rect' | 'line' | 'circle' | 'ellipse' | 'polyline' | 'polygon';

/** The path data of a shape as it is written, before any transform; `undefined` when a fault was said. */
export function shapeData(element: XmlElement, name: ShapeName, say: (fault: Fault) => void): string | undefined {
  const { d, points } = element.attributes;
  switch (name) {
    case 'path':
      if (d === undefined) {
        const message = 'This path has no d, so it shows nothing.';
        say({ rule: 'drawing-path', attribute: null, message, mend: 'Draw it again, or take it out.' });
      }
      return d;
    case 'polyline':
    case 'polygon': {
      const path = pointsPath(readNumbers(points ?? '') ?? [], name === 'polygon' ? 'Z' : '');
      const mend = 'Write two numbers for each corner, x and y, such as 0,0 1100,0 1220,552.';
      const message = `The corners of this ${name} cannot be read.`;
      if (path === undefined) say({ rule: 'drawing-number', attribute: 'points', message, mend });
      return path;
    }
    case 'rect':
    case 'line':
    case 'circle':
    case 'ellipse':
      return basicShape(element, name, say);
  }
}

function basicShape(
  element: XmlElement,
  name: 'rect' | 'line' | 'circle' | 'ellipse',
  say: (fault: Fault) => void,
): string | undefined {
  let isSaid = false;
  const path = shapePath(name, (attribute) => {
    const text = element.attributes[attribute];
    if (text === undefined || (text === 'auto' && attribute.startsWith('r'))) return 0;
    const number = readNumber(text);
    if (number === undefined) {
      isSaid = true;
      const mend = 'Write a plain number of millimetres, without a unit.';
      const message = `${attribute} of this ${name} cannot be read.`;
      say({ rule: 'drawing-number', attribute, message, mend });
    }
    return number;
  });
  if (path === undefined && !isSaid) {
    const mend = 'Write a size above 0, or take the shape out.';
    say({ rule: 'drawing-number', attribute: null, message: `This ${name} has no size.`, mend });
  }
  return path;
}

import { columns } from '../base/columns.ts';
import { cut, oneLine } from '../base/text.ts';
import { around, boxOf } from '../drawing/box.ts';
import type { Box, Drawing, Label, Part } from '../drawing/drawing.ts';
import { nameOf, partsNamed } from '../drawing/named-part.ts';
import { boxOfLabel } from './box.ts';
import { type Dots, drawPath, noDots, type Pen, type Tone } from './dots.ts';
import { type Placed, placeLabels, placesBeside, placesOfLabel, type Wish } from './labels.ts';
import { byLabel, labelsOf } from './labels-of.ts';
import { type Standing, standingOf, type Wanted } from './standing.ts';
import { viewOf } from './view.ts';

/** Room for a picture, in cells of the terminal. */
export interface Area {
  readonly columns: number;
  readonly rows: number;
}

/** A drawing laid out for its room: what is in view, how each part looks, and where the words stand. */
export interface Layout {
  readonly view: Box;
  readonly dots: Dots;
  readonly labels: readonly Placed[];
  readonly lookOf: (part: Part) => Look;
}

interface Look {
  readonly pen: Pen;
  readonly tone: Tone;
}

/** Lays a drawing out for an area of at least one cell; characters and pixels are drawn from the same layout. */
export function layOut(drawing: Drawing, area: Area, wanted: Wanted): Layout {
  const things = wanted.broughtOut.flatMap((name) => thingOf(drawing, name, area) ?? []);
  const shape = area.columns / (area.rows * 2);
  const boxes = things.flatMap(({ box, labels }) => [box, ...labels.map(boxOfLabel)]);
  const view = viewOf(drawing.box, boxes, shape);
  const dots = noDots(area.columns, area.rows);
  const looks = things.length + wanted.sewn.length > 0 ? LOOKS : WHOLE;
  const lookOf: Layout['lookOf'] = (part) => looks[standingOf(part, wanted)];
  for (const part of drawing.parts) {
    const { pen, tone } = lookOf(part);
    drawPath(dots, part.path, view, pen, tone);
  }
  return { view, dots, lookOf, labels: placeLabels(dots, wishes(drawing, things, wanted, dots, view)) };
}

const LOOKS: Readonly<Record<Standing, Look>> = {
  'brought out': { pen: 'heavy', tone: 'bright' },
  'brought out, sewn': { pen: 'heavy stitches', tone: 'bright' },
  sewn: { pen: 'stitches', tone: 'plain' },
  around: { pen: 'dotted', tone: 'faint' },
};

/** A drawing of which nothing is said is all there is to see. */
const WHOLE: typeof LOOKS = { ...LOOKS, around: { pen: 'thin', tone: 'plain' } };

interface Thing {
  readonly name: string;
  readonly box: Box;
  readonly labels: readonly Label[];
}

/** Something a fragment names, with the labels that the room can hold; `null` when the drawing has nothing of that name. */
function thingOf(drawing: Drawing, name: string, area: Area): Thing | null {
  const box = around(partsNamed(drawing, name).map(({ path }) => boxOf(path)));
  return box && { name, box, labels: labelsOf(drawing, name).filter(({ words }) => columns(words) <= area.columns) };
}

function wishes(drawing: Drawing, things: readonly Thing[], wanted: Wanted, dots: Dots, view: Box): readonly Wish[] {
  const loud = new Set(things.flatMap(({ labels }) => labels));
  const plain = new Set(wanted.sewn.flatMap((name) => labelsOf(drawing, name)));
  const toneOf = (label: Label): Tone => (loud.has(label) ? 'bright' : plain.has(label) ? 'plain' : 'faint');
  const pieceOf = byLabel(
    drawing.parts.filter(({ kind }) => kind === 'piece').map((part) => [nameOf(part) ?? '', part] as const),
  );
  const fromDrawing = drawing.labels.map((label): Wish => {
    const words = oneLine(label.words);
    const piece = (): Box | null => {
      const part = pieceOf(label);
      return part ? boxOf(part.path) : null;
    };
    return { words, tone: toneOf(label), places: placesOfLabel(dots, { ...label, words }, view, piece) };
  });
  const ownNames = things
    .filter(({ labels }) => labels.length === 0)
    .map(({ name, box }): Wish => {
      const words = cut(oneLine(name), Math.floor(dots.columns / 2));
      return { words, tone: 'bright', places: placesBeside(dots, box, words, view) };
    });
  const ranked = (tone: Tone): readonly Wish[] => fromDrawing.filter((wish) => wish.tone === tone);
  return [...ranked('bright'), ...ownNames, ...ranked('plain'), ...ranked('faint')];
}

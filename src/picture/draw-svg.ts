import type { Drawing } from '../drawing/drawing.ts';
import type { Pixels } from '../raster/raster.ts';
import type { Pen, Tone } from './dots.ts';
import type { Placed } from './labels.ts';
import { type Area, layOut } from './lay-out.ts';
import { type Field, seenLines } from './seen-lines.ts';
import type { Wanted } from './standing.ts';

/** Whether the ground behind the picture is dark or light, and its colour as `#rrggbb`. */
export interface Paper {
  readonly is: 'dark' | 'light';
  readonly colour: string;
}

/**
 * A drawing as SVG of our own, to be made into pixels for an area of cells of this size: the same layout and the same standing of
 * each line as in characters. Of the file nothing is left but its lines and words, so that nothing in it is fetched or obeyed.
 */
export function drawSvg(drawing: Drawing, area: Area, cell: Pixels, wanted: Wanted, paper: Paper): string {
  const { view, labels, lookOf } = layOut(drawing, area, wanted);
  // Whole pixels: half a pixel at the edge would be seen as a line.
  const [width, height] = [Math.floor(area.columns * cell.width), Math.floor(area.rows * cell.height)];
  const scale = Math.min(width / view.width, height / view.height);
  const [left, top] = [(width - view.width * scale) / 2, (height - view.height * scale) / 2];
  const field = { x: view.x - left / scale, y: view.y - top / scale, width, height, scale };
  const inks = INKS[paper.is];
  const drawn = LOUDER.flatMap((tone) =>
    drawing.parts.flatMap((part) => {
      const look = lookOf(part);
      if (look.tone !== tone) return [];
      const { wide, dashes } = STROKES[look.pen];
      const dashed =
        dashes.length > 0 ? ` stroke-dasharray="${dashes.map((dash) => round(dash * cell.width)).join(' ')}"` : '';
      const data = pathData(part.path, field);
      if (data === '') return [];
      return [
        `<path d="${data}" stroke="${inks[tone]}" stroke-width="${round(Math.max(1, wide * cell.width))}"${dashed}/>`,
      ];
    }),
  );
  const place = (label: Placed): string => {
    // The middle of its cells, which are of the layout's shape and not quite of the terminal's.
    const x = left + (label.column + label.wide / 2) * (view.width / area.columns) * scale;
    const y = top + (label.row + 0.5) * (view.height / area.rows) * scale;
    const weight = label.tone === 'bright' ? ' font-weight="bold"' : '';
    return `<text x="${round(x)}" y="${round(y + cell.height * 0.28)}" fill="${inks[label.tone]}"${weight}>${escaped(label.words)}</text>`;
  };
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<rect width="${width}" height="${height}" fill="${paper.colour}"/>`,
    '<g fill="none" stroke-linejoin="round">',
    ...drawn,
    '</g>',
    `<g font-family="sans-serif" font-size="${round(cell.height * 0.8)}" text-anchor="middle" stroke="${paper.colour}" stroke-width="${round(cell.width * 0.5)}" stroke-linejoin="round" paint-order="stroke">`,
    ...labels.map(place),
    '</g>',
    '</svg>',
  ].join('\n');
}

/** Path data of the lines that are seen: nobody who draws the pixels gets a curve of a kilometre. */
const pathData = (path: string, field: Field): string =>
  seenLines(path, field, 0.2)
    .map((run) => {
      let [data, end] = ['', ''];
      for (const [x0, y0, x1, y1] of run.map((line) => line.map(round))) {
        if (end !== `${x0} ${y0}`) data += `M${x0} ${y0}`;
        end = `${x1} ${y1}`;
        data += `L${end}`;
      }
      return data;
    })
    .join('');

/** The quietest first: what is drawn later lies above. */
const LOUDER: readonly Tone[] = ['faint', 'plain', 'bright'];

/** In widths of a cell, so that a line is as heavy to the eye on a fine screen as on a coarse one. */
const STROKES: Readonly<Record<Pen, { readonly wide: number; readonly dashes: readonly number[] }>> = {
  heavy: { wide: 0.4, dashes: [] },
  'heavy stitches': { wide: 0.4, dashes: [1.5, 0.8] },
  thin: { wide: 0.15, dashes: [] },
  stitches: { wide: 0.25, dashes: [1.5, 0.8] },
  dotted: { wide: 0.1, dashes: [] },
};

const INKS: Readonly<Record<Paper['is'], Readonly<Record<Tone, string>>>> = {
  dark: { bright: '#ffffff', plain: '#d0d0d0', faint: '#808080' },
  light: { bright: '#000000', plain: '#303030', faint: '#8a8a8a' },
};

const round = (number: number): number => Math.round(number * 1000) / 1000;

const escaped = (text: string): string => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

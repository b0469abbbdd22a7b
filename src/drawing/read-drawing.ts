import type { XmlElement } from '@rgrove/parse-xml';
import { collectFindings, type Problem } from '../base/collect-findings.ts';
import type { Finding } from '../base/finding.ts';
import { type Source, sourceOf } from '../base/source.ts';
import type { Box, Drawing } from './drawing.ts';
import { readNumber, readNumbers } from './numbers.ts';
import { readParts } from './read-parts.ts';
import { elementsOf, placeOfValue, readTree } from './tree.ts';

export interface DrawingRead {
  /** What was understood; nothing in it when the file could not be read at all. */
  readonly drawing: Drawing;
  /** All ids in the file: of parts, groups and words. A picture can bring each of them out. */
  readonly ids: ReadonlySet<string>;
  /** In the order of the file. An error is unsafe or cannot be read; a warning leaves something unread, or the whole unmeasured. */
  readonly findings: readonly Finding[];
}

/** Reads an SVG file as a panel drawing. Never throws, fetches nothing, and obeys nothing in it. `file` is its name, for the findings. */
export function readDrawing(text: string, file: string): DrawingRead {
  const source = sourceOf(text, file);
  const { note, findings } = collectFindings(source);
  const root = readTree(source, note);
  if (root === undefined) return { drawing: EMPTY, ids: new Set(), findings: findings() };
  const box = readBox(root, source, note);
  const { parts, labels, ids } = readParts(root, source, note);
  const title = elementsOf(root).find(({ name }) => name === 'title');
  const words = title?.text.replace(/\s+/g, ' ').trim() ?? '';
  return { drawing: { title: words === '' ? null : words, box, parts, labels }, ids, findings: findings() };
}

/** Whether a length in it is a length on the cloth. */
export const isToScale = ({ findings }: DrawingRead): boolean =>
  findings.every(({ rule, severity }) => severity !== 'error' && rule !== UNITS);

const UNITS = 'drawing-units';
const EMPTY: Drawing = { title: null, box: { x: 0, y: 0, width: 0, height: 0 }, parts: [], labels: [] };

/** A drawing is in millimetres when its size in millimetres is that of its viewBox. */
function readBox(root: XmlElement, source: Source, note: (problem: Problem) => void): Box {
  const { viewBox = '', width = '', height = '' } = root.attributes;
  const size = [width, height].map(inMillimetres);
  const numbers = readNumbers(viewBox) ?? [];
  const [x = 0, y = 0, across = 0, down = 0] = numbers;
  if (numbers.length === 4 && across > 0 && down > 0) {
    const box = { x, y, width: across, height: down };
    if (isSame(size[0], across) && isSame(size[1], down)) return box;
    const way = `width="${across}mm" height="${down}mm"`;
    note({
      rule: UNITS,
      at: placeOfValue(source, root, width === '' ? 'viewBox' : 'width'),
      message: 'One unit of this drawing is not one millimetre, so nothing in it can be measured.',
      found: `width="${width}" height="${height}" viewBox="${viewBox}"`,
      mend: `Draw it in millimetres, with ${way} beside viewBox="${viewBox.trim()}".`,
      severity: 'warning',
    });
    return box;
  }
  note({
    rule: UNITS,
    at: placeOfValue(source, root, 'viewBox'),
    message: 'This drawing has no viewBox that can be read, so nothing in it can be measured.',
    found: viewBox,
    mend: 'Write the place and size it shows in millimetres, such as viewBox="0 0 1500 540" width="1500mm" height="540mm".',
    severity: 'warning',
  });
  const [plainWidth, plainHeight] = [width, height].map((text) => Number.parseFloat(text));
  const positive = (number: number | undefined): number => (number !== undefined && number > 0 ? number : 0);
  return { x: 0, y: 0, width: positive(plainWidth), height: positive(plainHeight) };
}

/** A size as programs write it, in millimetres; `undefined` without a unit, and in one that is none of length. */
function inMillimetres(text: string): number | undefined {
  const [, digits = '', unit = ''] = /^(.*?)(mm|cm|in)\s*$/s.exec(text) ?? [];
  const number = readNumber(digits);
  return number === undefined ? undefined : number * (MILLIMETRES.get(unit) ?? Number.NaN);
}

/** An inch by 24 FR 5348, 1959. */
const MILLIMETRES: ReadonlyMap<string, number> = new Map([
  ['mm', 1],
  ['cm', 10],
  ['in', 25.4],
]);

/** Inches are written with some six decimals. */
const isSame = (a: number | undefined, b: number): boolean => a !== undefined && Math.abs(a - b) <= b * 1e-6;

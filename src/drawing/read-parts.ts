import type { XmlElement } from '@rgrove/parse-xml';
import type { Problem } from '../base/collect-findings.ts';
import type { Source } from '../base/source.ts';
import { cut } from '../base/text.ts';
import type { Label, Part } from './drawing.ts';
import { kindOf } from './kind.ts';
import { combine, enlargement, IDENTITY, type Matrix, moved, readTransform } from './matrix.ts';
import { readNumber, readNumbers } from './numbers.ts';
import { MOST_COMMANDS, pathInPlace } from './path-in-place.ts';
import { type Fault, type ShapeName, shapeData } from './shape-data.ts';
import { placedByStyle, styleOf } from './style.ts';
import { textRuns } from './text-runs.ts';
import { elementsOf, placeOfValue } from './tree.ts';
import { unsafeIn } from './unsafe.ts';

interface Drawn {
  readonly parts: readonly Part[];
  readonly labels: readonly Label[];
  /** Of whatever has one: parts, groups, words. */
  readonly ids: ReadonlySet<string>;
}

/** Everything that is drawn under the root, in its order. What is not read is noted. */
export function readParts(root: XmlElement, source: Source, note: (problem: Problem) => void): Drawn {
  const say = (element: XmlElement, { attribute, ...fault }: Fault): void => {
    const at = attribute === null ? element.start : placeOfValue(source, element, attribute);
    const found = attribute === null ? source.text.slice(element.start, element.end) : element.attributes[attribute];
    note({ ...fault, at, found: found ?? '' });
  };
  const reading: Reading = { parts: [], labels: [], ids: new Set(), commands: 0, say };
  walk(root, OUTSIDE, 0, reading);
  return reading;
}

interface Reading {
  readonly parts: Part[];
  readonly labels: Label[];
  readonly ids: Set<string>;
  /** Path commands so far. */
  commands: number;
  readonly say: (element: XmlElement, fault: Fault) => void;
}

/** What an element has from those it stands in. */
interface Inherited {
  readonly matrix: Matrix;
  readonly groups: readonly string[];
  readonly kind: Part['kind'];
  readonly hidden: boolean;
  /** Size of the letters, before the matrix. */
  readonly size: number;
  readonly anchor: Label['anchor'];
}

/** 16 is what a browser takes where nothing is said. */
const OUTSIDE: Inherited = { matrix: IDENTITY, groups: [], kind: 'other', hidden: false, size: 16, anchor: 'start' };

const DEEPEST = 40;

/** Elements that show nothing where they stand; what is unsafe in them is found all the same. */
const UNSHOWN: ReadonlySet<string> = new Set(['title', 'desc', 'metadata', 'defs', 'style']);
const SHAPES: ReadonlySet<string> = new Set<ShapeName>([
  'path',
  'rect',
  'line',
  'circle',
  'ellipse',
  'polyline',
  'polygon',
]);
const isShape = (name: string): name is ShapeName => SHAPES.has(name);

function walk(element: XmlElement, outer: Inherited, depth: number, reading: Reading): void {
  if (depth > DEEPEST) {
    const message = 'Groups stand in groups, too many levels deep.';
    const mend = `Take groups apart until there are no more than ${DEEPEST} levels.`;
    reading.say(element, { rule: 'drawing-deep', attribute: null, message, mend });
    return;
  }
  const { name } = element;
  const { id } = element.attributes;
  const isForbidden = check(element, reading);
  const inner = inherit(element, outer, reading);
  // Other programs keep their notes in elements with a name of theirs before a colon.
  const isShown = !inner.hidden && !UNSHOWN.has(name) && !name.includes(':');
  const isGroup = name === 'g' || (name === 'svg' && depth === 0);
  if (isShape(name)) readShape(element, name, { ...inner, hidden: !isShown }, reading);
  else if (name === 'text' && isShown) readText(element, inner, reading);
  else if (isShown && !isGroup && name !== 'tspan' && !isForbidden) reading.say(element, unread(name));
  const groups = isGroup && id !== undefined ? [...outer.groups, id] : outer.groups;
  const hidden = !isShown || !(isGroup || isShape(name) || name === 'text' || name === 'tspan');
  for (const child of elementsOf(element)) walk(child, { ...inner, groups, hidden }, depth + 1, reading);
}

const unread = (name: string): Fault => ({
  rule: 'drawing-unread',
  attribute: null,
  message: `A drawing is read as lines, shapes and words, and ${name} is none of them.`,
  mend:
    name === 'use'
      ? 'Draw what it repeats once more, with an id of its own.'
      : 'Draw it with path, rect, line, polyline, polygon, circle, ellipse and text, or take it out.',
  severity: 'warning',
});

/** Says what is wrong with an element wherever it stands; `true` when the element itself must not be there. */
function check(element: XmlElement, { ids, say }: Reading): boolean {
  const unsafe = unsafeIn(element);
  for (const fault of unsafe) say(element, { rule: 'drawing-unsafe', ...fault });
  const placed = element.name === 'svg' ? undefined : placedByStyle(element);
  if (placed !== undefined) {
    const message = `A style says ${placed} here, which is obeyed on paper and not read.`;
    const mend = 'Write it as an attribute of the part, such as transform="rotate(90)" or width="40".';
    say(element, { rule: 'drawing-style', attribute: element.name === 'style' ? null : 'style', message, mend });
  }
  const { id } = element.attributes;
  if (id !== undefined && ids.has(id)) {
    const message = `The id ${id} is there already, so nobody knows which of the two is meant.`;
    say(element, { rule: 'drawing-id-twice', attribute: 'id', message, mend: 'Give one of them another id.' });
  }
  if (id !== undefined) ids.add(id);
  return unsafe.some(({ attribute }) => attribute === null);
}

function inherit(element: XmlElement, outer: Inherited, { say }: Reading): Inherited {
  const { transform, class: words } = element.attributes;
  const own = transform === undefined ? IDENTITY : readTransform(transform);
  if (own === undefined) {
    const mend = 'Write translate(x y), scale(n), rotate(degrees) or matrix(…) with plain numbers.';
    const message = 'This transform cannot be read.';
    say(element, { rule: 'drawing-transform', attribute: 'transform', message, mend });
  }
  const { kind, wrong } = kindOf(words ?? '');
  if (wrong) say(element, { rule: 'drawing-kind', attribute: 'class', ...wrong });
  const style = styleOf(element);
  const anchor = style('text-anchor') ?? '';
  return {
    matrix: own ? combine(outer.matrix, own) : outer.matrix,
    groups: outer.groups,
    kind: kind ?? outer.kind,
    hidden: outer.hidden || style('display') === 'none' || /^(?:hidden|collapse)$/.test(style('visibility') ?? ''),
    size: readNumber((style('font-size') ?? '').replace(/px$/, '')) ?? outer.size,
    anchor: isAnchor(anchor) ? anchor : outer.anchor,
  };
}

function readShape(element: XmlElement, name: ShapeName, inner: Inherited, reading: Reading): void {
  const data = shapeData(element, name, (fault) => reading.say(element, fault));
  if (data === undefined) return;
  const attribute = name === 'path' ? 'd' : null;
  const path = pathInPlace(data, inner.matrix);
  if (!path.ok) {
    const message = `This ${name} cannot be read: ${path.error.message}.`;
    const mend =
      'Mend its numbers, or draw it again: a path begins with M and goes on with L, H, V, C, S, Q, T, A and Z.';
    reading.say(element, { rule: path.error.rule, attribute, message, mend });
    return;
  }
  const before = reading.commands;
  reading.commands += path.value.commands;
  if (reading.commands > MOST_COMMANDS) {
    const message = 'The paths of this drawing have too many points to be read.';
    const mend = `Simplify them until there are no more than ${MOST_COMMANDS} together.`;
    if (before <= MOST_COMMANDS) reading.say(element, { rule: 'drawing-large', attribute, message, mend });
    return;
  }
  if (inner.hidden) return;
  const title = cut(tidy(elementsOf(element).find((child) => child.name === 'title')?.text ?? ''), LONGEST_TITLE);
  const { groups, kind } = inner;
  reading.parts.push({
    id: element.attributes.id ?? null,
    groups,
    kind,
    title: title === '' ? null : title,
    path: path.value.path,
  });
}

function readText(element: XmlElement, inner: Inherited, reading: Reading): void {
  for (const attribute of ['x', 'y']) {
    const text = element.attributes[attribute];
    if (text === undefined || readNumbers(text) !== undefined) continue;
    const mend = 'Write a plain number of millimetres, without a unit.';
    const message = `${attribute} of this text cannot be read, so it stands at 0.`;
    reading.say(element, { rule: 'drawing-number', attribute, message, mend, severity: 'warning' });
  }
  for (const { words, x, y, of } of textRuns(element)) {
    if (tidy(words) === '') continue;
    const { matrix, size, anchor } = of === element ? inner : inherit(of, inner, { ...reading, say: () => {} });
    const [placeX, placeY] = moved(matrix, x, y);
    reading.labels.push({ words: tidy(words), x: placeX, y: placeY, height: size * enlargement(matrix), anchor });
  }
}

/** Columns; it is said as a part of a sentence. */
const LONGEST_TITLE = 200;

const isAnchor = (text: string): text is Label['anchor'] => text === 'start' || text === 'middle' || text === 'end';

const tidy = (text: string): string => text.replace(/\s+/g, ' ').trim();

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Point, Procedure } from '../src/procedure/procedure.ts';
import { proofread } from '../src/procedure/proofread.ts';
import { readProcedure } from '../src/procedure/read-procedure.ts';

const room = new URL('../', import.meta.url);
const textOf = (path: string): string => readFileSync(new URL(path, room), 'utf8');
const names = readdirSync(new URL('procedures/', room)).filter((name) => /^[A-Z]{3}-\d{4}\.md$/.test(name));

describe.each(names)('%s', (name) => {
  const { procedure } = read(name);

  test('is proofread without a finding; what it silences has its reason', () => {
    const { findings, silenced } = proofread(textOf(`procedures/${name}`), name);
    expect(findings).toEqual([]);
    expect(silenced.filter(({ reason }) => reason.split(' ').length < 5)).toEqual([]);
  });

  test('carries the id of its file name', () => expect(`${procedure.id}.md`).toBe(name));

  test('every picture is in media/, and brings out only what it holds', () => {
    const missing = pictures(procedure).flatMap(({ address, bringOut }) => {
      const ids = idsOf(drawing(address));
      return bringOut.filter((id) => !ids.has(id)).map((id) => `${address}#${id}`);
    });
    expect(missing).toEqual([]);
  });

  test('every piece of the kit is drawn, and every piece is shown in a step', () => {
    const shown = new Set(pictures(procedure).flatMap((picture) => picture.bringOut));
    expect(procedure.kit.map((piece) => piece.id).filter((id) => !shown.has(id))).toEqual([]);
  });

  test('every step has an allowed time and at most eight points', () => {
    expect(procedure.steps.filter((step) => step.facts.allowedMinutes === null)).toEqual([]);
    expect(procedure.steps.filter((step) => step.points.length > 8)).toEqual([]);
  });

  test('a step that can go wrong on a number or a choice says what to do then', () => {
    const silent = procedure.steps.filter((step) => step.facts.ifOut === null && step.points.some(canBeOut));
    expect(silent.map((step) => step.title)).toEqual([]);
  });

  test('no sentence to be read at the machine is longer than twenty words', () => {
    const spoken = procedure.steps.flatMap((step) => [step.prose, ...step.cautions.map((caution) => caution.text)]);
    const long = spoken.flatMap((text) => text.split(/(?<=[.:;!?])\*?\s+/)).filter((it) => it.split(/\s+/).length > 20);
    expect(long).toEqual([]);
  });

  test('no point is longer than the 60 columns of a small screen', () => {
    const texts = procedure.steps.flatMap((step) => step.points.map((point) => point.text));
    expect(texts.filter((text) => text.length > 60)).toEqual([]);
  });
});

test.each([
  { name: 'LIN-2207.md', steps: 12, sets: 2, pieces: 11, perSet: 60, perBundle: 8, seams: 15_451 },
  { name: 'CUS-0412.md', steps: 12, sets: 4, pieces: 17, perSet: 52, perBundle: 7, seams: 21_854 },
  { name: 'HOD-0931.md', steps: 12, sets: 3, pieces: 8, perSet: 53, perBundle: 9, seams: 11_569 },
])('$name adds up: pieces, minutes, and the seams as drawn', ({ name, ...expected }) => {
  const { procedure } = read(name);
  const minutes = (scope: 'set' | 'bundle') =>
    sum(procedure.steps.filter((s) => s.facts.scope === scope).map((s) => Number(s.facts.allowedMinutes)));
  const sewn = procedure.steps.flatMap((step) => {
    const address = step.pictures[0]?.address ?? '';
    return (step.facts.seams?.ids ?? []).map((id) => seamLength(drawing(address), id));
  });
  expect({
    steps: procedure.steps.length,
    sets: procedure.sets,
    pieces: sum(procedure.kit.map((piece) => piece.count)),
    perSet: minutes('set'),
    perBundle: minutes('bundle'),
    seams: Math.round(sum(sewn)),
  }).toEqual(expected);
});

test('the blade change accepts each of its three ways of isolating, and counts one out, one in the box, one in', () => {
  const step = read('CUT-0100.md').procedure.steps.find((it) => it.title === 'Change the blade');
  const choices = step?.points.flatMap((point) => (point.kind === 'choice' ? [point.options] : []));
  expect(choices).toEqual([
    ['locked', 'plug in my hand', 'approved alternative'].map((text) => ({ text, acceptable: true })),
  ]);
  const counts = step?.points.flatMap((point) => (point.kind === 'count' ? [[point.text, point.limit?.nominal]] : []));
  expect(counts).toEqual([
    ['Blades out', '1'],
    ['Blades in the sharps box', '1'],
    ['Blades in', '1'],
  ]);
});

test('marks and notches are measured before the film goes on, and the outline comes after', () => {
  const titles = read('CUT-0100.md').procedure.steps.map((step) => step.title);
  const stages = ['Run stage one', 'Pause', 'Lay the film', 'Run stage two', 'Let the vacuum off', 'Find, count'];
  const found = stages.map((start) => titles.findIndex((title) => title.startsWith(start)));
  expect(found).toEqual([7, 8, 9, 10, 11, 12].map((number) => number - 1));
});

function read(name: string): { readonly procedure: Procedure; readonly findings: readonly unknown[] } {
  return readProcedure(textOf(`procedures/${name}`), `procedures/${name}`);
}

function canBeOut(point: Point): boolean {
  if (point.kind === 'choice') return point.options.some((option) => !option.acceptable);
  return 'limit' in point && point.limit !== null;
}

function pictures(procedure: Procedure) {
  return procedure.steps.flatMap((step) => step.pictures);
}

/** The text of a drawing, by its address in a procedure. */
function drawing(address: string): string {
  return readFileSync(new URL(address, new URL('procedures/', room)), 'utf8');
}

function idsOf(svg: string): ReadonlySet<string> {
  return new Set([...svg.matchAll(/\bid="([^"]+)"/g)].map(([, id]) => id ?? ''));
}

/** Length in mm of everything of class `seam` that is, or lies inside, the element `id`. */
function seamLength(svg: string, id: string): number {
  const at = svg.indexOf(`id="${id}"`);
  const start = svg.lastIndexOf('<', at);
  const end = svg.startsWith('<g ', start) ? svg.indexOf('</g>', at) : svg.indexOf('>', at) + 1;
  const shapes = svg.slice(start, end).match(/<(?:line|rect|circle|path)\b[^>]*>/g) ?? [];
  const seams = shapes.filter((shape) => shape.includes('class="seam"'));
  if (at < 0 || seams.length === 0) throw new Error(`no seam ${id} in the drawing`);
  return sum(seams.map(lengthOf));
}

function lengthOf(shape: string): number {
  const text = (name: string): string => new RegExp(` ${name}="([^"]*)"`).exec(shape)?.[1] ?? '';
  const n = (name: string): number => Number(text(name));
  if (shape.startsWith('<line')) return Math.hypot(n('x2') - n('x1'), n('y2') - n('y1'));
  if (shape.startsWith('<circle')) return 2 * Math.PI * n('r');
  if (shape.startsWith('<rect')) return 2 * (n('width') + n('height')) - (8 - 2 * Math.PI) * n('rx');
  return pathLength(text('d'));
}

/** Length of a path of straight lines and quarter circles. */
function pathLength(d: string): number {
  let [x, y, startX, startY, length] = [0, 0, 0, 0, 0];
  for (const [, letter = '', numbers = ''] of d.matchAll(/([A-Z])([^A-Z]*)/g)) {
    const values = numbers
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    const [toX, toY] = target(letter, values, { x, y, startX, startY });
    if (letter === 'A') length += (Math.PI / 2) * (values[0] ?? 0);
    else if (letter === 'M') [startX, startY] = [toX, toY];
    else length += Math.hypot(toX - x, toY - y);
    [x, y] = [toX, toY];
  }
  return length;
}

type Pen = { readonly x: number; readonly y: number; readonly startX: number; readonly startY: number };

function target(letter: string, values: readonly number[], pen: Pen): readonly [number, number] {
  const last = values.at(-1) ?? 0;
  if (letter === 'H') return [last, pen.y];
  if (letter === 'V') return [pen.x, last];
  if (letter === 'Z') return [pen.startX, pen.startY];
  if ('MLA'.includes(letter)) return [values.at(-2) ?? 0, last];
  throw new Error(`a path command this test cannot measure: ${letter}`);
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, n) => total + n, 0);
}

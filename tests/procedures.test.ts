import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Drawing } from '../src/drawing/drawing.ts';
import { lengthOf } from '../src/drawing/length.ts';
import { partsNamed } from '../src/drawing/named-part.ts';
import { type DrawingRead, readDrawing } from '../src/drawing/read-drawing.ts';
import type { Point, Procedure } from '../src/procedure/procedure.ts';
import { proofread } from '../src/procedure/proofread.ts';
import { readProcedure } from '../src/procedure/read-procedure.ts';

const room = new URL('../', import.meta.url);
const textOf = (path: string): string => readFileSync(new URL(path, room), 'utf8');
const names = readdirSync(new URL('procedures/', room)).filter((name) => /^[A-Z]{3}-\d{4}\.md$/.test(name));

describe.each(names)('%s', (name) => {
  const { procedure } = read(name);

  test('is proofread without a finding; what it silences has its reason', () => {
    const { findings, silenced } = proofread(textOf(`procedures/${name}`), name, drawing);
    expect(findings).toEqual([]);
    expect(silenced.filter(({ reason }) => reason.split(' ').length < 5)).toEqual([]);
  });

  test('carries the id of its file name', () => expect(`${procedure.id}.md`).toBe(name));

  test('every picture is in media/, and brings out only what it holds', () => {
    const missing = pictures(procedure).flatMap(({ address, bringOut }) => {
      const { ids } = drawing(address);
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
    return (step.facts.seams?.ids ?? []).map((id) => seamLength(drawing(address).drawing, id));
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
  expect(found).toEqual([8, 9, 10, 11, 12, 13].map((number) => number - 1));
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

/** A drawing, by its address in a procedure. */
function drawing(address: string): DrawingRead {
  return readDrawing(readFileSync(new URL(address, new URL('procedures/', room)), 'utf8'), address);
}

/** Length in mm of every seam that is, or stands in, what has this id. */
function seamLength(of: Drawing, id: string): number {
  const seams = partsNamed(of, id).filter(({ kind }) => kind === 'seam');
  if (seams.length === 0) throw new Error(`no seam ${id} in the drawing`);
  return sum(seams.map(({ path }) => lengthOf(path)));
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, n) => total + n, 0);
}

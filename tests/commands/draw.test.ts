import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { afterEach, expect, test } from 'vitest';
import { draw } from '../../src/commands/draw.ts';
import type { Io } from '../../src/commands/io.ts';
import { readDrawing } from '../../src/drawing/read-drawing.ts';
import { dxf, entity, PATCH_AND_STRAP, units } from '../drawing/pattern/dxf.ts';
import { program, quietEnv } from '../playthrough/lining.ts';
import { called } from './demo-room.ts';

const made: string[] = [];
afterEach(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true });
});

/** A folder with one pattern. */
function folder(text: string | Uint8Array): string {
  const place = mkdtempSync(join(tmpdir(), 'draw-'));
  made.push(place);
  writeFileSync(join(place, 'strap.dxf'), text);
  return place;
}

const drawing = (place: string, options: Parameters<typeof draw>[1] = {}, input?: string) =>
  called((io) => draw('strap.dxf', options, input === undefined ? io : atTerminal(io, input)), place);

/** Somebody who types. */
function atTerminal(io: Io, input: string): Io {
  const stdin = Object.assign(new PassThrough(), { isTTY: true, setRawMode: () => stdin });
  stdin.write(input);
  return { ...io, stdin: stdin as unknown as NodeJS.ReadStream };
}

const KNOWN = dxf({ ...PATCH_AND_STRAP, header: units(4) });
const widthOf = (place: string): number => {
  const { drawing: read, findings } = readDrawing(readFileSync(join(place, 'strap.svg'), 'utf8'), 'strap.svg');
  expect(findings).toEqual([]);
  return read.box.width;
};

test('a pattern becomes a drawing beside it, and what is left out of it is told', async () => {
  const place = folder(KNOWN);
  expect(await drawing(place)).toEqual({
    code: 0,
    out: 'strap.svg: 2 pieces, 1 seam, 2 notches, 2 marks; a unit of the pattern is 1 mm.\nLeft out, as nothing is lost with it:\n  2 × POINT on layer 2: turn points of other lines\n',
    err: '',
  });
  expect(widthOf(place)).toBe(590);
});

test('what is lost is bad news, with its type, its layer and how often; the drawing is there', async () => {
  const spline = entity('SPLINE', 8, [10, 1]);
  const place = folder(
    dxf({ ...PATCH_AND_STRAP, entities: [...PATCH_AND_STRAP.entities, spline, spline, entity('HATCH', 14)] }),
  );
  const { code, out } = await drawing(place, { units: 'mm' });
  expect(code).toBe(1);
  expect(out).toContain(
    'Look at these, they are not in the drawing as they were meant:\n  2 × SPLINE on layer 8: it is of a type that is not read\n  1 × HATCH on layer 14: it is of a type that is not read\n',
  );
  expect(widthOf(place)).toBe(590);
});

test('what is told is broken between words, and goes on below its own words', async () => {
  const strange = entity('LINE', 'cut', [10, 0], [20, 0], [11, 9], [21, 0]);
  const place = folder(dxf({ ...PATCH_AND_STRAP, entities: [...PATCH_AND_STRAP.entities, strange] }));
  const { out } = await drawing(place, { units: 'mm' });
  expect(out).toContain(
    '  1 × LINE on layer cut: its layer is not known, so it is drawn as a line\n    without a meaning\n',
  );
});

test('for programs there are fields', async () => {
  const { out } = await drawing(folder(KNOWN), { units: 'in', json: true });
  expect(JSON.parse(out)).toMatchObject({
    file: 'strap.svg',
    mmPerUnit: 25.4,
    parts: [{ id: 'PT-L', kind: 'piece' }, {}, {}, {}, {}, {}, { id: 'ST' }, { id: 'mark-ST-1', kind: 'mark' }],
    leftOut: [{ type: 'POINT', layer: '2', count: 2, matters: 'expected' }],
  });
});

test('a file that says its units is not overruled in silence', async () => {
  const place = folder(KNOWN);
  const { code, out } = await drawing(place, { units: 'in' });
  expect(code).toBe(0);
  expect(out.replace(/\s+/g, ' ')).toContain(
    'a unit of the pattern is 25.4 mm. The pattern itself says 1 mm: leave --units out, unless you know that it is wrong.',
  );
  expect((await drawing(place, { units: 'mm', out: 'same.svg' })).out).not.toContain('itself says');
});

test('units that nobody says are asked for at a terminal, again where the answer is neither', async () => {
  const place = folder(dxf(PATCH_AND_STRAP));
  const { code, err } = await drawing(place, {}, 'cm\nIN\n');
  expect(code).toBe(0);
  expect(err).toMatch(
    /does not say its\s+units\.\s+Are\s+its\s+numbers\s+millimetres\s+or\s+inches\?[\s\S]*Type mm or in\./,
  );
  expect(widthOf(place)).toBeGreaterThan(10_000);
});

test('without a terminal, or without an answer, there is no drawing, and the option is named', async () => {
  const place = folder(dxf(PATCH_AND_STRAP));
  for (const input of [undefined, '\u0004'])
    expect(await drawing(place, {}, input)).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringContaining('strap.dxf: This file does not say its units; say --units mm or --units in.'),
    });
  expect(readdirSync(place)).toEqual(['strap.dxf']);
});

test('a drawing that is there is not written over', async () => {
  const place = folder(KNOWN);
  await drawing(place, { out: 'mine.svg' });
  const before = readFileSync(join(place, 'mine.svg'), 'utf8');
  expect(await drawing(place, { out: 'mine.svg', units: 'in' })).toMatchObject({
    code: 2,
    err: expect.stringContaining('There is a file mine.svg already'),
  });
  expect(readFileSync(join(place, 'mine.svg'), 'utf8')).toBe(before);
});

test('letters of older files, and control characters, are read and never obeyed', async () => {
  const named = KNOWN.replace('Piece Name: PT-L', 'Piece Name: \u00c4rmel \u001b[2J');
  const place = folder(Buffer.from(named, 'latin1'));
  expect((await drawing(place)).code).toBe(0);
  const svg = readFileSync(join(place, 'strap.svg'), 'utf8');
  expect(svg).toContain('id="Ärmel-2J"');
  expect(svg).not.toContain('\u001b');
});

test.each<readonly [string, string | Uint8Array, RegExp]>([
  ['cut off', KNOWN.slice(0, 900), /ends before its end/],
  ['binary', Buffer.from([0x89, 0x50, 0, 0, 0x1a]), /no DXF file of text/],
  ['something else', 'PK\u0003\u0004', /should be the number of a group/],
  ['empty', '', /does not begin like a DXF file/],
])('a pattern that is %s is refused in one sentence, and leaves no drawing', async (_, text, said) => {
  const place = folder(text);
  const { code, out, err } = await drawing(place, { units: 'mm' });
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toMatch(said);
  expect(err.trimEnd().split('\n')).toHaveLength(1);
  expect(readdirSync(place)).toEqual(['strap.dxf']);
});

test('what is no file, or not there, is a sentence', async () => {
  const place = folder(KNOWN);
  for (const file of ['/dev/zero', '.', 'none.dxf'])
    expect(await called((io) => draw(file, {}, io), place)).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringMatching(/: check .+\n$/),
    });
  const missing = await called((io) => draw('none.dxf', {}, io), place);
  expect(missing.err).toBe('walkfoot: There is no file none.dxf: check its name.\n');
});

test('the example in the help is a true one', () => {
  const run = (...args: readonly string[]) =>
    spawnSync(process.execPath, [program, ...args], { cwd: place, env: quietEnv(), encoding: 'utf8', input: '' });
  const place = folder(KNOWN);
  mkdirSync(join(place, 'media'));
  const [, example = ''] = /^Example: walkfoot (.*)$/m.exec(run('draw', '--help').stdout) ?? [];
  expect(run(...example.split(' '))).toMatchObject({ status: 0, stderr: '' });
  expect(readdirSync(join(place, 'media'))).toEqual(['strap.svg']);
});

test('two pieces half a kilometre apart make no drawing that can be measured', async () => {
  const line = (x: number) => entity('LINE', 8, [10, x], [20, 0], [11, x + 600_000], [21, 9]);
  const place = folder(dxf({ entities: [line(-700_000), line(400_000)] }));
  const { code, err } = await drawing(place, { units: 'mm' });
  expect(code).toBe(2);
  expect(err).toContain('check its units, and export fewer pieces at once');
  expect(readdirSync(place)).toEqual(['strap.dxf']);
});

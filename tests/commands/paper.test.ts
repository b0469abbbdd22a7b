import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { practiceRoom, program, quietEnv, verasPin, type WhoRow } from '../playthrough/lining.ts';

let room: ReturnType<typeof practiceRoom>;
beforeAll(() => {
  room = practiceRoom();
});
afterAll(() => room.remove());

/** Runs the bundled program where its files are to lie; Vera's PIN is there to be read. */
function walkfoot(...args: readonly string[]) {
  const { stdout, stderr, status } = spawnSync(process.execPath, [program, ...args], {
    cwd: room.folder,
    env: quietEnv(),
    encoding: 'utf8',
    input: `${verasPin}\n`,
  });
  return { out: stdout, err: stderr, code: status };
}
const here = (name: string): string => join(room.folder, name);
const read = (name: string): string => readFileSync(here(name), 'utf8');
const printed = (ticket: string) =>
  (JSON.parse(walkfoot('who', ticket, '--json').out) as readonly WhoRow[]).filter(({ kind }) => kind === 'printed');

test('the first paper of a ticket is anybody’s, each one after it a copy that a supervisor signs', () => {
  expect(walkfoot('ticket', 'LIN-2207', '--name', 'B-77', '--label')).toMatchObject({ code: 0, err: '' });
  expect(read('B-77.label.html')).not.toContain('COPY');
  expect(walkfoot('sheet', 'B-77')).toMatchObject({ code: 2, err: expect.stringContaining('--hand NAME') });
  expect(walkfoot('sheet', 'B-77', '--hand', 'Ines')).toMatchObject({
    code: 2,
    err: expect.stringContaining('supervisor'),
  });
  expect(existsSync(here('B-77.html'))).toBe(false);
  expect(walkfoot('sheet', 'B-77', '--hand', 'Vera')).toMatchObject({
    code: 0,
    err: expect.not.stringContaining('walkfoot:'),
  });
  expect(read('B-77.copy-1.html')).toContain('COPY 1');
  const again = walkfoot('ticket', '--again', 'b-77', '--hand', 'Vera');
  expect(again.out).toMatch(/^B-77, COPY 2\. B-77\.copy-2\.label\.html: /);
  expect(read('B-77.copy-2.label.html')).toContain('COPY 2');
  expect(printed('B-77').map(({ value, meaning }) => [value, meaning])).toEqual([
    ['label', null],
    ['sheet, COPY 1', 'reprinted with PIN'],
    ['label, COPY 2', 'reprinted with PIN'],
  ]);
  expect(walkfoot('verify')).toMatchObject({ code: 0, err: '' });
});

test('a file that is there is left alone, and nothing is counted', () => {
  writeFileSync(here('B-1048.html'), 'mine');
  expect(walkfoot('sheet', 'B-1048')).toMatchObject({ code: 2, err: expect.stringContaining('name another') });
  expect(read('B-1048.html')).toBe('mine');
  expect(printed('B-1048')).toEqual([]);
  mkdirSync(here('taken.html'));
  expect(walkfoot('ticket', 'LIN-2207', '--name', 'B-78', '--label', 'taken.html')).toMatchObject({ code: 2 });
  expect(walkfoot('who', 'B-78')).toMatchObject({ code: 2, err: expect.stringContaining('no ticket') });
});

test('nothing is counted for a file that cannot be made, and none is left of what is refused', () => {
  expect(walkfoot('sheet', 'B-1048', '--out', 'nowhere/B-1048.html')).toMatchObject({ code: 2 });
  expect(walkfoot('ticket', 'LIN-2207', '--name', 'B-79', '--label', 'nowhere/x.html')).toMatchObject({ code: 2 });
  expect(walkfoot('ticket', 'NOPE', '--label', 'nope.html')).toMatchObject({ code: 2 });
  expect(existsSync(here('nope.html'))).toBe(false);
  expect(printed('B-1048')).toEqual([]);
  expect(walkfoot('who', 'B-79')).toMatchObject({ code: 2, err: expect.stringContaining('no ticket') });
});

test('a form of the revision in use is blank, counted by nobody, and whole in itself', () => {
  expect(walkfoot('sheet', 'lin-2207')).toMatchObject({ code: 0, err: '' });
  const page = read('LIN-2207.html');
  expect(page).toContain('revision C');
  expect(page).toContain('size: A4;');
  expect(page.match(/<img src="data:image\/svg\+xml;base64,/g)?.length).toBeGreaterThan(8);
  expect(page).not.toMatch(/(?:src|href)="(?!data:)|url\(|<script|@import/);
  expect(page).not.toContain('class="qr"');
});

test('a draft is marked as one; with errors it is not printed; the text in use is no draft', () => {
  const text = read('procedures/HOD-0931.md');
  const draft = 'procedures/draft.md';
  writeFileSync(here(draft), text.replace('(25 ±3)', '(25 ±2)'));
  expect(walkfoot('sheet', draft, '--out', 'draft.html', '--paper', 'Letter')).toMatchObject({ code: 0, err: '' });
  expect(read('draft.html')).toContain('DRAFT, not released');
  expect(read('draft.html')).toContain('size: Letter;');
  expect(read('draft.html')).toContain('<img src="data:image/svg+xml;base64,');
  writeFileSync(here(draft), text.replace('(25 ±3)', '(25 ±'));
  expect(walkfoot('sheet', draft, '--out', 'broken.html')).toMatchObject({
    code: 1,
    err: expect.stringContaining('Not printed: mend the errors'),
  });
  expect(existsSync(here('broken.html'))).toBe(false);
  rmSync(here(draft));
  expect(walkfoot('sheet', 'procedures/HOD-0931.md', '--out', 'same.html')).toMatchObject({ code: 0, err: '' });
  expect(read('same.html')).toContain('revision A');
  expect(read('same.html')).not.toContain('WITHDRAWN');
});

test('a text that is out of use is marked as that, and is no draft', () => {
  const other = practiceRoom();
  const there = ['--room', other.folder];
  expect(
    walkfoot(
      'withdraw',
      'HOD-0931',
      'A',
      '--hand',
      'Vera',
      '--reason',
      'wrong window',
      ...there,
      '--open-bundles',
      'hold',
    ),
  ).toMatchObject({ code: 0 });
  expect(walkfoot('sheet', 'HOD-0931', '--out', 'gone.html', ...there)).toMatchObject({ code: 0, err: '' });
  expect(read('gone.html')).toContain('WITHDRAWN');
  expect(read('gone.html')).not.toContain('DRAFT');
  other.remove();
});

test('a bundle’s sheet is of the text it was opened on, and goes on where it stands', () => {
  const file = here('procedures/LIN-2207.md');
  for (const path of [file, here('procedures/LIN-2207.es.md')])
    writeFileSync(path, readFileSync(path, 'utf8').replace('(27 +2/-0)', '(27 +1.5/-0)'));
  expect(walkfoot('release', 'LIN-2207', '--open-bundles', 'finish', '--hand', 'Vera').code).toBe(0);
  expect(walkfoot('sheet', 'B-1041').code).toBe(0);
  expect(read('B-1041.html')).toContain('revision C');
  expect(read('B-1041.html')).toContain('27 to 29 mm');
  expect(read('B-1041.html')).toMatch(/✓<\/span> <b class="value">31\d\.\d mm/);
  expect(walkfoot('sheet', 'B-1048', '--out', 'new.html').code).toBe(0);
  expect(walkfoot('sheet', 'LIN-2207', '--out', 'form.html').code).toBe(0);
  expect(read('form.html')).toContain('27 to 28.5 mm');
});

test('the code is shown where it is asked for, for a program it is not', () => {
  const shown = walkfoot('ticket', 'LIN-2207', '--qr').out.split('\n');
  expect(shown.filter((line) => /^[█▀▄ ]{29}$/.test(line))).toHaveLength(15);
  expect(walkfoot('ticket', 'LIN-2207').out).not.toContain('█');
  const { label, ticket } = JSON.parse(walkfoot('ticket', 'LIN-2207', '--label', '--json').out) as Record<
    string,
    string
  >;
  expect(label).toBe(`${ticket}.label.html`);
});

test('paper is read in the language that is asked for: its own words, the sheet’s text, and the digests of both', () => {
  expect(walkfoot('sheet', 'LIN-2207', '--language', 'es', '--out', 'es.html')).toMatchObject({ code: 0, err: '' });
  const page = read('es.html');
  expect(page).toContain('<html lang="es">');
  for (const said of ['Contar las piezas', 'Para todo el atado', 'formulario en blanco', 'SHA-256 de esta hoja'])
    expect(page).toContain(said);
  expect(page).not.toMatch(/For each set|signature, time|Count the kit/);
  const digests = [...page.matchAll(/<code>([0-9a-f]{64})<\/code>/g)].map(([, digest]) => digest ?? '');
  expect(new Set(digests).size).toBe(2);
  expect(page).toContain(`texto ${digests[1]?.slice(0, 12)}`);
  expect(walkfoot('sheet', 'LIN-2207', '--out', 'en.html')).toMatchObject({ code: 0 });
  expect(read('en.html')).toContain(`text ${digests[0]?.slice(0, 12)}`);
});

/**
 * Draws the pictures of screens in the guide from real runs: the program is opened in a real pseudo-terminal on a practice room, and the
 * cells of its screen become an SVG. `npm run picture`.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { blanksOf, linesOf, practiceRoom, program, quietEnv } from '../tests/playthrough/lining.ts';
import { type RealTerminal, startTerminal } from '../tests/screens/real-terminal.ts';

const cellWidth = 9;
const cellHeight = 19;

const room = practiceRoom();
try {
  await atAReading();
  await besideItsDrawing();
  await atTheDesk();
} finally {
  room.remove();
}

/** The lining, played through a pipe up to a reading. */
async function atAReading(): Promise<void> {
  const blanks = blanksOf(room.folder);
  const here = blanks.findIndex(({ step, place, point }) => step === 4 && place === 3 && point.includes('seam on A'));
  const lines = blanks.slice(0, here).flatMap((blank) => linesOf(blank));
  const sewing = ['sew', 'B-1047', '--hand', 'Ines', '--room', room.folder];
  spawnSync(process.execPath, [program, ...sewing], { input: `${lines.join('\n')}\n`, env: quietEnv() });
  const size = { columns: 80, rows: 24 };
  const terminal = startTerminal({ command: process.execPath, args: [program, ...sewing], ...size });
  await terminal.waitFor('seam on A');
  await terminal.press('3', '1', '1');
  await terminal.waitFor('311');
  draw('sewing-screen.svg', 'The sewing screen of the practice room at a reading', terminal, size);
  terminal.type('\x03');
  await terminal.exited;
}

/** The top-stitch of the lining: what is sewn before it is drawn as stitches. */
async function besideItsDrawing(): Promise<void> {
  const size = { columns: 104, rows: 30 };
  const sewing = ['sew', 'B-1041', '--hand', 'Ines', '--room', room.folder];
  const terminal = startTerminal({ command: process.execPath, args: [program, ...sewing], ...size });
  for (const shown of ['1 of 2', '2 of 2']) {
    await terminal.waitFor(shown);
    await terminal.press('\r');
  }
  await terminal.waitFor(/› Bobbin before[\s\S]*T1 [⠁-⣿]/);
  draw('drawing-screen.svg', 'A step beside its drawing', terminal, size);
  terminal.type('\x03');
  await terminal.exited;
}

/** A supervisor's desk, beside a draft in which something is to be mended. */
async function atTheDesk(): Promise<void> {
  const draft = join(room.folder, 'procedures/LIN-2207.md');
  const text = readFileSync(draft, 'utf8');
  writeFileSync(draft, text.replace('## Open the allowances', '## Open the allowances carefully'));
  const size = { columns: 110, rows: 24 };
  const desk = ['desk', '--hand', 'Vera', '--room', room.folder];
  const terminal = startTerminal({ command: process.execPath, args: [program, ...desk], ...size });
  await terminal.waitFor('Vera is signed on');
  await terminal.press(...Array.from({ length: 9 }, () => '\x1b[B'));
  await terminal.waitFor('carefully” can be read');
  draw('desk-screen.svg', 'A supervisor’s desk in the practice room, with a draft chosen', terminal, size);
  terminal.type('\x03');
  await terminal.exited;
}

interface Size {
  readonly columns: number;
  readonly rows: number;
}

function draw(file: string, title: string, terminal: RealTerminal, { columns, rows }: Size): void {
  const width = columns * cellWidth;
  const height = rows * cellHeight;
  const parts: string[] = [];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) parts.push(...cell(terminal, column, row));
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-12 -12 ${width + 24} ${height + 24}" role="img">
<title>${title}, ${columns} columns by ${rows} rows</title>
<rect x="-12" y="-12" width="${width + 24}" height="${height + 24}" rx="8" fill="#16181d"/>
<g font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="15" xml:space="preserve">
${parts.join('\n')}
</g>
</svg>
`;
  writeFileSync(resolve(import.meta.dirname, file), svg);
}

function cell(terminal: RealTerminal, column: number, row: number): readonly string[] {
  const { text, bold, dim, inverse, underlined, struck, foreground, background } = terminal.cell(column, row);
  const front = colour(foreground) ?? '#d8dbe2';
  const back = colour(background) ?? '#16181d';
  const [ink, paper] = inverse ? [back, front] : [front, back];
  const x = column * cellWidth;
  const y = row * cellHeight;
  const parts: string[] = [];
  if (paper !== '#16181d')
    parts.push(`<rect x="${x}" y="${y}" width="${cellWidth + 0.5}" height="${cellHeight}" fill="${paper}"/>`);
  if (text.trim() === '') return parts;
  const lines = [underlined ? 'underline' : '', struck ? 'line-through' : ''].filter(Boolean).join(' ');
  const look = `${bold ? ' font-weight="700"' : ''}${dim ? ' opacity="0.7"' : ''}${lines ? ` text-decoration="${lines}"` : ''}`;
  parts.push(`<text x="${x}" y="${y + 14.5}" fill="${ink}"${look}>${escaped(text)}</text>`);
  return parts;
}

/** The palette's first sixteen as many terminals show them, the colour cube and the greys by their formula. */
function colour(number: number | undefined): string | undefined {
  if (number === undefined) return undefined;
  if (number > 255) return `#${number.toString(16).padStart(6, '0')}`;
  const first = [
    '#16181d',
    '#d05050',
    '#5faf5f',
    '#d7af5f',
    '#5f87d7',
    '#af5faf',
    '#5fafaf',
    '#d8dbe2',
    '#808590',
    '#ff7070',
    '#87d787',
    '#ffd75f',
    '#87afff',
    '#d787d7',
    '#87d7d7',
    '#ffffff',
  ][number];
  if (first) return first;
  if (number >= 232) return grey(8 + (number - 232) * 10);
  const cube = number - 16;
  const level = (n: number): string => (n === 0 ? 0 : 55 + n * 40).toString(16).padStart(2, '0');
  return `#${level(Math.floor(cube / 36))}${level(Math.floor(cube / 6) % 6)}${level(cube % 6)}`;
}

function grey(n: number): string {
  return `#${n.toString(16).padStart(2, '0').repeat(3)}`;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

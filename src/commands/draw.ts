import { basename, extname } from 'node:path';
import { many } from '../base/many.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { oneLine, wrap } from '../base/text.ts';
import type { Drawing } from '../drawing/drawing.ts';
import type { LeftOut } from '../drawing/pattern/left-out.ts';
import { patternSvg } from '../drawing/pattern/pattern-svg.ts';
import { patternText } from '../drawing/pattern/pattern-text.ts';
import { type Pattern, readPattern } from '../drawing/pattern/read-pattern.ts';
import { readDrawing } from '../drawing/read-drawing.ts';
import { wayOut } from '../procedure/way-out.ts';
import { asker } from './asker.ts';
import { givenFile } from './given-file.ts';
import { cannot, type ExitCode, type Io, proseWidthOf, say, sayJson } from './io.ts';
import { fileName, newFile } from './new-file.ts';

interface DrawOptions {
  readonly units?: 'mm' | 'in';
  readonly out?: string;
  readonly json?: boolean;
}

/**
 * Makes a drawing of a pattern file, and tells all of it that is not in the drawing. Exit 1 when something of the pattern is lost, 2 when there
 * is no drawing.
 */
export async function draw(file: string, options: DrawOptions, io: Io): Promise<ExitCode> {
  const bytes = givenFile(file, 'is far too long for a pattern: export fewer pieces at once.', io);
  if (!bytes.ok) return cannot(io, bytes.error.message);
  const pattern = await patternOf(patternText(bytes.value), file, options, io);
  if (!pattern.ok) return cannot(io, pattern.error.message);
  const name = basename(file, extname(file));
  const svg = patternSvg(pattern.value, name);
  const { drawing, findings } = readDrawing(svg, name);
  const [wrong] = findings;
  if (wrong)
    return cannot(
      io,
      `${file} makes no drawing that can be measured; check its units, and export fewer pieces at once. ${wrong.message}`,
    );
  const made = await newFile(options.out ?? `${fileName(name)}.svg`, io, async () => ok(svg));
  if (!made.ok) return cannot(io, made.error.message);
  tell(made.value, drawing, pattern.value, options, io);
  return pattern.value.leftOut.some(({ matters }) => matters === 'lost') ? 1 : 0;
}

/** Read with the units that are said, or that the file says, or that somebody at the terminal says. */
async function patternOf(text: string, file: string, { units }: DrawOptions, io: Io): Promise<Result<Pattern>> {
  const read = readPattern(text, units ?? null);
  if (read.ok || read.error.rule !== 'units-unknown' || !io.stdin.isTTY) return about(file, read);
  const asking = asker(io, 'seen');
  try {
    const { message } = wayOut(read.error.message);
    const question = `${oneLine(file)}: ${message} Are its numbers millimetres or inches?`;
    for (const row of wrap(question, proseWidthOf(io))) io.err(`${row}\n`);
    for (;;) {
      const said = (await asking.ask('mm or in'))?.trim().toLowerCase();
      if (said === undefined) return about(file, read);
      if (said === 'mm' || said === 'in') return about(file, readPattern(text, said));
      io.err('Type mm or in.\n');
    }
  } finally {
    asking.close();
  }
}

const about = (file: string, read: Result<Pattern>): Result<Pattern> =>
  read.ok ? read : refuse(read.error.rule, `${file}: ${read.error.message}`);

function tell(
  name: string,
  drawing: Drawing,
  { perUnit, perUnitSaid, leftOut }: Pattern,
  { json }: DrawOptions,
  io: Io,
): void {
  const parts = drawing.parts.map(({ id, kind }) => ({ id, kind }));
  if (json) {
    sayJson(io, {
      file: name,
      mmPerUnit: perUnit,
      mmPerUnitSaid: perUnitSaid,
      width: drawing.box.width,
      height: drawing.box.height,
      parts,
      leftOut,
    });
    return;
  }
  const count = (kind: string): number => parts.filter((part) => part.kind === kind).length;
  const what = [
    many(count('piece'), 'piece'),
    many(count('seam'), 'seam'),
    many(count('notch'), 'notch', 'notches'),
    many(count('mark'), 'mark'),
  ];
  const prose = (line: string): void => {
    for (const row of wrap(oneLine(line), proseWidthOf(io))) say(io, row);
  };
  const item = (line: string): void => {
    for (const [nth, row] of wrap(oneLine(line), proseWidthOf(io) - 4).entries())
      say(io, `${nth === 0 ? '  ' : '    '}${row}`);
  };
  prose(`${name}: ${what.join(', ')}; a unit of the pattern is ${perUnit} mm.`);
  if (perUnitSaid !== null && perUnitSaid !== perUnit)
    prose(`The pattern itself says ${perUnitSaid} mm: leave --units out, unless you know that it is wrong.`);
  const list = (matters: LeftOut['matters'], head: string): void => {
    const rows = leftOut.filter((each) => each.matters === matters);
    if (rows.length > 0) prose(head);
    for (const { type, layer, count: times, why } of rows) item(`${times} × ${type} on layer ${layer}: ${why}`);
  };
  list('lost', 'Look at these, they are not in the drawing as they were meant:');
  list('expected', 'Left out, as nothing is lost with it:');
}

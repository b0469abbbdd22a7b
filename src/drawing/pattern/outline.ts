import { SVGPathData } from 'svg-pathdata';
import { boxOf } from '../box.ts';
import { between, type Point, runsOf } from '../curve.ts';
import type { Box } from '../drawing.ts';
import { flatten } from '../flatten.ts';

/** A closed outline, with points along it that are no more than a twentieth of a millimetre off. */
export interface Outline {
  readonly path: string;
  readonly points: readonly Point[];
  readonly box: Box;
}

/** Stretches of an outline nearer than this, in millimetres, were meant to meet. */
const MEETS = 0.01;
/** More stretches than any piece has are not put together: each is looked at for each. */
const MOST = 2_000;

/**
 * Puts the stretches of outlines together end to end, whichever way each was drawn. Answers those that closed, and what could not
 * be closed.
 */
export function outlinesOf(paths: readonly string[]): {
  readonly closed: readonly Outline[];
  readonly open: readonly string[];
} {
  const closed: string[] = [];
  const open: string[] = [];
  const left: Stretch[] = [];
  for (const path of paths) {
    const ends = endsOf(path);
    if (ends === null) closed.push(path);
    else left.push({ path, ends });
  }
  while (left.length > 0 && left.length <= MOST) {
    const { path, ends } = chained(left);
    if (between(...ends) <= MEETS) closed.push(`${path}Z`);
    else open.push(path);
  }
  open.push(...left.map(({ path }) => path));
  return { closed: closed.map((path) => ({ path, points: flatten(path, 0.05)[0] ?? [], box: boxOf(path) })), open };
}

interface Stretch {
  readonly path: string;
  readonly ends: readonly [Point, Point];
}

/** Takes the first stretch, and then each that goes on from where the one before it ended. */
function chained(left: Stretch[]): Stretch {
  let [path, ends] = [
    left[0]?.path ?? '',
    left[0]?.ends ??
      ([
        [0, 0],
        [0, 0],
      ] as const),
  ];
  left.shift();
  while (between(...ends) > MEETS) {
    const end = ends[1];
    const next = left.findIndex((other) => other.ends.some((place) => between(end, place) <= MEETS));
    const [found] = next < 0 ? [] : left.splice(next, 1);
    if (found === undefined) break;
    const forward = between(end, found.ends[0]) <= MEETS;
    path += (forward ? found.path : reversed(found.path)).replace(/^M[^A-Z]*/, '');
    ends = [ends[0], forward ? found.ends[1] : found.ends[0]];
  }
  return { path, ends };
}

/** Both ends of a path; null when it is closed, or of several runs. */
function endsOf(path: string): readonly [Point, Point] | null {
  const [run, ...more] = runsOf(path);
  if (run === undefined || run.closed || more.length > 0) return null;
  return [run.start, run.curves.at(-1)?.at(1) ?? run.start];
}

/** An open path as it comes out of a pattern file, from its end to its start. The library reverses no arcs. */
function reversed(path: string): string {
  const commands = SVGPathData.parse(path);
  const places = commands.map((command) => ('x' in command && 'y' in command ? `${command.x} ${command.y}` : ''));
  const back = commands.slice(1).map((command, index) => {
    if (command.type === SVGPathData.QUAD_TO) return `Q${command.x1} ${command.y1} ${places[index]}`;
    if (command.type !== SVGPathData.ARC) return `L${places[index]}`;
    const { rX, rY, xRot, lArcFlag, sweepFlag } = command;
    return `A${rX} ${rY} ${xRot} ${lArcFlag} ${sweepFlag === 1 ? 0 : 1} ${places[index]}`;
  });
  return `M${places.at(-1)}${back.reverse().join('')}`;
}

import { type SVGCommand, SVGPathData } from 'svg-pathdata';
import { ok, type Result, refuse } from '../base/result.ts';
import type { Matrix } from './matrix.ts';
import { FURTHEST } from './numbers.ts';

/** Commands of all paths of a drawing together. */
export const MOST_COMMANDS = 50_000;

/**
 * Path data as it stands in a drawing, brought to its place: absolute, moved by the matrix, and of M, L, C, Q, A and Z only. Exact but
 * for the arithmetic: an arc stays an arc. Refused as `drawing-path` (the reason and what to do) or `drawing-large`.
 */
export function pathInPlace(
  data: string,
  matrix: Matrix,
): Result<{ readonly path: string; readonly commands: number }> {
  try {
    // Lines across and down become plain lines first: turned, they are no longer across or down.
    const path = new SVGPathData(data).toAbs().normalizeHVZ(false, true, true).normalizeST();
    const commands = path.commands.length;
    if (commands > MOST_COMMANDS) return refuse('drawing-large', `it has ${commands} commands`);
    if (commands === 0) return refuse('drawing-path', 'it is empty');
    if (!path.commands.every((command) => isInReach(command))) return refuse('drawing-path', FAR);
    path.matrix(...matrix);
    return path.commands.every(isInReach)
      ? ok({ path: path.encode().replaceAll('z', 'Z'), commands })
      : refuse('drawing-path', FAR);
  } catch (error) {
    // The library throws plain errors with the reason for whatever is no path data.
    if (error instanceof Error) return refuse('drawing-path', error.message.replace(/\.$/, '').replace(/^./, lower));
    throw error;
  }
}

const FAR = 'it leads further than a kilometre away';
const lower = (letter: string): string => letter.toLowerCase();

const isInReach = (command: SVGCommand): boolean =>
  Object.values(command).every(
    (value) => typeof value !== 'number' || (Number.isFinite(value) && Math.abs(value) <= FURTHEST),
  );

import type { Clock, OffsetAt } from '../base/instant.ts';
import { oneLine } from '../base/text.ts';

/** The world outside a command: where it prints, what it reads, which folder it was called in, and the time. */
export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly clock: Clock;
  readonly offsetAt: OffsetAt;
  readonly stdin: NodeJS.ReadStream;
  readonly stdout: NodeJS.WriteStream;
  /** Ends the process at once: for signals, a terminal that went away and crashes, when nothing is left to be printed. */
  readonly exit: (code: number) => never;
}

/** 0: good, or left to go on later. 1: the answer is bad news. 2: it could not run. */
export type ExitCode = 0 | 1 | 2;

/** Says in one sentence on standard error why a command could not run. */
export function cannot(io: Io, message: string): 2 {
  io.err(`walkfoot: ${oneLine(message)}\n`);
  return 2;
}

/** Columns for a table: the terminal's, or plenty when the output is read by a program or kept in a file. */
export const widthOf = (io: Io): number => (io.stdout.isTTY ? io.stdout.columns : 400);

/** Columns for running words: the terminal's, or as many as are read with ease. */
export const proseWidthOf = (io: Io): number => (io.stdout.isTTY ? (io.stdout.columns ?? 80) : 80);

/** One line for a person; whatever a terminal would obey in it is shown as a mark. */
export const say = (io: Io, line: string): void => io.out(`${oneLine(line)}\n`);

/** For programs. Characters that JSON lets stand and nobody sees are spelled out: it may be a terminal, and a person, that reads it. */
export const sayJson = (io: Io, value: unknown): void =>
  io.out(`${JSON.stringify(value, null, 2).replace(HIDDEN, spelled)}\n`);

const HIDDEN = /[\x7f-\x9f\p{Zl}\p{Zp}\p{Cf}\p{Default_Ignorable_Code_Point}]/gu;

const spelled = (character: string): string =>
  character
    .split('')
    .map((unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`)
    .join('');

import type { Clock } from '../base/instant.ts';

/** The world outside a command: where it prints, what it reads, which folder it was called in, and the time. */
export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly clock: Clock;
  readonly stdin: NodeJS.ReadStream;
  readonly stdout: NodeJS.WriteStream;
  /** Ends the process at once: for signals, a terminal that went away and crashes, when nothing is left to be printed. */
  readonly exit: (code: number) => never;
}

/** 0: good, or left to go on later. 1: the answer is bad news. 2: it could not run. */
export type ExitCode = 0 | 1 | 2;

/** Says in one sentence on standard error why a command could not run. */
export function cannot(io: Io, message: string): 2 {
  io.err(`walkfoot: ${message}\n`);
  return 2;
}

/** Columns for a table: the terminal's, or plenty when the output is read by a program or kept in a file. */
export const widthOf = (io: Io): number => (io.stdout.isTTY ? io.stdout.columns : 400);

import type { Command } from 'commander';
import type { Io } from '../commands/io.ts';

/** What the command line's own parser hands over: it has checked what each command takes. */
// biome-ignore lint/suspicious/noExplicitAny: commander hands over whatever was declared.
type Said = any;

/** The program's verbs as they are declared: where to add one, and what each does when called. */
export interface CommandLine {
  readonly program: Command;
  readonly io: Io;
  /** A verb of the program: its usage, its summary, and examples that are true ones. */
  readonly verb: (usage: string, summary: string, shown: string | readonly string[]) => Command;
  /** Runs a command's work with its operands and options; `--room` counts before the command's name as well as behind it. */
  readonly does: (
    work: (...said: readonly Said[]) => Promise<number>,
  ) => (...given: readonly unknown[]) => Promise<void>;
}

/** The means to declare verbs on `program`; `onEnd` hears each command's exit code. */
export function commandLine(program: Command, io: Io, onEnd: (code: number) => void): CommandLine {
  return {
    program,
    io,
    verb: (usage, summary, shown) => declared(program, usage, summary, shown),
    does:
      (work) =>
      async (...given) => {
        const command = given.at(-1) as Command;
        onEnd(await work(...(given.slice(0, -2) as Said[]), command.optsWithGlobals()));
      },
  };
}

/** A command of `parent` that works in a room. */
export const declared = (parent: Command, usage: string, summary: string, shown: string | readonly string[]): Command =>
  example(inRoom(parent.command(usage).description(summary)).allowExcessArguments(false), shown);

export const inRoom = (command: Command): Command =>
  command.option('--room <folder>', 'the room’s folder (default: this one)');

export const example = (command: Command, texts: string | readonly string[]): Command =>
  command.addHelpText('after', ['', ...[texts].flat().map((text) => `Example: ${text}`)].join('\n'));

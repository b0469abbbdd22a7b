import { createInterface } from 'node:readline';
import { Writable } from 'node:stream';
import { rubbedOut } from '../terminal/hush.ts';
import type { Io } from './io.ts';

/** Questions of a command, asked one after another; each answer is one line. */
export interface Asker {
  readonly from: 'terminal' | 'pipe';
  /** Undefined when the input ends, or is given up with Ctrl-C or Ctrl-D, before there is a line. */
  ask(prompt: string): Promise<string | undefined>;
  close(): void;
}

/**
 * Asks at the terminal, or takes one line of standard input for each question. PINs are asked with `unseen`: they are typed without
 * echo, and never arguments, which others can see. Whatever ends the asking, a terminal can be asked again.
 */
export function asker(io: Io, typing: 'seen' | 'unseen'): Asker {
  const { stdin } = io;
  const isTerminal = stdin.isTTY === true;
  const echo = new Writable({
    write(text, _, done) {
      if (typing === 'seen') io.err(String(text));
      done();
    },
  });
  // In raw mode Ctrl-D is a key: otherwise it would end the input for good, and with it whatever asked.
  const lines = createInterface({
    input: stdin,
    crlfDelay: Number.POSITIVE_INFINITY,
    historySize: 0,
    ...(isTerminal ? { terminal: true, output: Object.assign(echo, { columns: io.stdout.columns }) } : {}),
  });
  const each = lines[Symbol.asyncIterator]();
  return {
    from: isTerminal ? 'terminal' : 'pipe',
    async ask(prompt) {
      if (stdin.readableEnded || stdin.destroyed) return undefined;
      // The echo is gone already: whoever answers fast is not seen either.
      if (isTerminal && typing === 'unseen') io.err(`${prompt}: `);
      else if (isTerminal) {
        lines.setPrompt(`${prompt}: `);
        lines.prompt();
      }
      const { value, done } = await each.next();
      if (isTerminal && (done || typing === 'unseen')) io.err('\n');
      return done ? undefined : isTerminal ? rubbedOut(value) : value.trim();
    },
    close() {
      lines.close();
      // An input that nobody reads any more must not keep the program alive; a terminal may be asked again.
      if (isTerminal) stdin.pause();
      else stdin.destroy();
    },
  };
}

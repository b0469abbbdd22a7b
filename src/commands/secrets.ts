import { createInterface } from 'node:readline';
import { hush, rubbedOut } from '../terminal/hush.ts';
import type { Io } from './io.ts';

/** PINs for a command: typed at the terminal without echo, or one line of standard input each; never arguments, which others can see. */
export interface Secrets {
  readonly from: 'terminal' | 'pipe';
  /** Undefined when the input ends, or is given up with Ctrl-C, before there is a line. */
  ask(prompt: string): Promise<string | undefined>;
  close(): void;
}

export function secrets(io: Io): Secrets {
  const { stdin } = io;
  const isTerminal = stdin.isTTY === true;
  const lines = createInterface({ input: stdin, crlfDelay: Number.POSITIVE_INFINITY, terminal: false });
  const each = lines[Symbol.asyncIterator]();
  return {
    from: isTerminal ? 'terminal' : 'pipe',
    async ask(prompt) {
      // First the echo goes, then the question comes: whoever answers fast is not seen either.
      const heard = hush(stdin, () => lines.close());
      if (isTerminal) io.err(`${prompt}: `);
      try {
        const { value, done } = await each.next();
        return done ? undefined : isTerminal ? rubbedOut(value) : value.trim();
      } finally {
        heard();
        if (isTerminal) io.err('\n');
      }
    },
    close() {
      lines.close();
      // An input that nobody reads any more must not keep the program alive; a terminal may be asked again.
      if (isTerminal) stdin.pause();
      else stdin.destroy();
    },
  };
}

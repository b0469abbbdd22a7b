import { Writable } from 'node:stream';
import type { Terminal } from './open-terminal.ts';

/**
 * What Ink believes is standard output: the same terminal, with a size that changes when the picture is ready for it.
 *
 * Ink draws at once when it hears of a new size, still with the old picture; its rows are then wider than the terminal, wrap,
 * and every later row lands one too low. So a new size is told in two steps: `size` to the components (use-size.ts), which draw
 * a picture that fits, and `resize` to Ink once they have.
 */
export class Canvas extends Writable {
  readonly isTTY = true;
  columns: number;
  rows: number;

  constructor(terminal: Terminal) {
    super({
      decodeStrings: false,
      // Answered at once, so that nothing waits in here while the terminal is given back.
      write: (text: string, _encoding, done) => {
        terminal.stdout.write(text);
        done();
      },
    });
    ({ columns: this.columns, rows: this.rows } = terminal.size());
  }
}

import { Transform } from 'node:stream';

/**
 * Takes the terminal's echo away until the answer is called: what is typed meanwhile is not seen. Ctrl-C, which the terminal then no
 * longer hears, and Ctrl-D at once are told to `given`. Does nothing for an input that is no terminal.
 */
export function hush(stdin: NodeJS.ReadStream, given: () => void): () => void {
  if (!stdin.isTTY) return () => {};
  const listen = (bytes: Buffer | string): void => {
    if (/[\x03\x04]/.test(bytes.toString())) given();
  };
  stdin.setRawMode(true);
  stdin.on('data', listen);
  return () => {
    stdin.off('data', listen);
    stdin.setRawMode(false);
  };
}

/**
 * The lines of an input that is sometimes hushed: enter then comes as a carriage return, and otherwise as a line feed, which a reader of
 * lines would take for the second half of the same line end.
 */
export function evenEnters(stdin: NodeJS.ReadStream): NodeJS.ReadableStream {
  if (!stdin.isTTY) return stdin;
  return stdin.pipe(
    new Transform({
      transform: (bytes, _, done) =>
        done(
          null,
          Buffer.from(bytes).map((byte) => (byte === 0x0d ? 0x0a : byte)),
        ),
    }),
  );
}

/** A line as it was typed without the terminal's help: what was rubbed out is gone. */
export function rubbedOut(line: string): string {
  const kept: string[] = [];
  for (const each of line) {
    if (each === '\x7f' || each === '\b') kept.pop();
    else if (each === '\x15') kept.length = 0;
    else kept.push(each);
  }
  return kept.join('');
}

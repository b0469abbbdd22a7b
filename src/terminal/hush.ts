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

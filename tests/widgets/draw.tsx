import { EventEmitter } from 'node:events';
import headless from '@xterm/headless';
import { render } from 'ink';
import type { ReactNode } from 'react';

/** What a person sees: the rows as text without spaces at the end, and the reversed or coloured parts of a row. */
export interface Seen {
  readonly lines: readonly string[];
  /** Rows that were pushed off the top. */
  readonly lost: number;
  /** Every byte the screen library sent. */
  readonly sent: string;
  readonly again: (next: ReactNode) => Promise<Seen>;
}

/** Draws through Ink on the alternate screen of an emulated terminal of exactly this size. */
export async function draw(node: ReactNode, width: number, height: number): Promise<Seen> {
  const terminal = new headless.Terminal({ cols: width, rows: height, allowProposedApi: true, convertEol: true });
  let sent = '';
  const stdout = Object.assign(new EventEmitter(), {
    columns: width,
    rows: height,
    isTTY: true,
    write(data: string | Uint8Array, ...rest: readonly unknown[]): boolean {
      sent += String(data);
      const done = rest.find((one) => typeof one === 'function');
      terminal.write(String(data), () => done?.());
      return true;
    },
  });
  const app = render(node, {
    stdout: stdout as unknown as NodeJS.WriteStream,
    patchConsole: false,
    exitOnCtrlC: false,
    interactive: true,
    alternateScreen: true,
    incrementalRendering: true,
    maxFps: 1000,
  });
  const look = async (): Promise<Seen> => {
    await app.waitUntilRenderFlush();
    await new Promise<void>((resolve) => terminal.write('', resolve));
    const buffer = terminal.buffer.active;
    const lines = Array.from(
      { length: height },
      (_, y) => buffer.getLine(buffer.viewportY + y)?.translateToString(true) ?? '',
    );
    return { lines: lines.map((line) => line.trimEnd()), lost: buffer.viewportY, sent, again };
  };
  const again = (next: ReactNode): Promise<Seen> => {
    app.rerender(next);
    return look();
  };
  return look();
}

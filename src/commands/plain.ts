import { createInterface } from 'node:readline';
import type { App } from '../app/app.ts';
import { asked, heard } from '../app/dialogue.ts';
import type { AppStore } from '../app/store.ts';
import { told } from '../app/told.ts';
import { oneLine, wrap } from '../base/text.ts';
import { evenEnters, hush, rubbedOut } from '../terminal/hush.ts';
import { type Io, proseWidthOf } from './io.ts';

/** What ends a dialogue from outside; the bundle is left as at the end of the input. */
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

interface PlainOptions {
  /** `stop`: a line that is refused ends it with exit 2, since the lines behind it were meant to follow it. */
  readonly atRefusal?: 'ask again' | 'stop';
  /** Waits for what the next question will tell of. */
  readonly ready?: () => Promise<void>;
}

/**
 * The session as a dialogue on standard input and output, one line at a time. Each line is heard only when all that came of
 * the line before is done, so a pipe loses nothing. The end of the input, or of whoever reads the output, leaves the bundle, to
 * be taken up again.
 */
export async function playPlain(
  store: AppStore,
  io: Io,
  { atRefusal = 'ask again', ready = async () => {} }: PlainOptions = {},
): Promise<number> {
  const lines = createInterface({
    input: evenEnters(io.stdin),
    crlfDelay: Number.POSITIVE_INFINITY,
    terminal: false,
  });
  // Begun at once: lines that come while pictures are read, and the end behind them, would be lost on nobody.
  const typedLines = lines[Symbol.asyncIterator]();
  // With nobody to hear the questions there is nobody to answer them.
  const end = (): void => lines.close();
  io.stdout.once('error', end);
  for (const signal of SIGNALS) process.once(signal, end);
  let shown: App | null = null;
  let echo: () => void = () => {};
  try {
    return await talk();
  } finally {
    echo();
    lines.close();
    // An input that nobody reads any more must not keep the program alive.
    io.stdin.destroy();
  }

  async function talk(): Promise<number> {
    await ready();
    ask();
    let count = 0;
    for await (const typed of typedLines) {
      count++;
      const before = store.app();
      // What was typed unseen was typed without the terminal's help, and its enter was not seen either.
      const line = before.pin && io.stdin.isTTY ? rubbedOut(typed) : typed;
      if (before.pin && io.stdin.isTTY) io.out('\n');
      echo();
      const what = heard(before, line, { now: io.clock(), offsetAt: io.offsetAt });
      if ('print' in what) {
        print(what.print);
      } else {
        store.tell(what.news);
        await store.settled();
        await ready();
        print(told(store.app(), before));
        const { message } = store.app();
        if (atRefusal === 'stop' && message?.tone === 'refusal' && message !== before.message) {
          io.err(
            `walkfoot: Line ${count} was refused: ${oneLine(message.text)} What was before it is recorded; go on from there.\n`,
          );
          await leave();
          return 2;
        }
      }
      if (store.app().ended !== null) return store.over;
      ask();
    }
    io.out('\n');
    const isLeft = await leave();
    return atRefusal === 'stop' && !isLeft ? 2 : store.over;
  }

  /** Whether it went without a refusal. */
  async function leave(): Promise<boolean> {
    const before = store.app();
    store.tell({ news: 'move', move: { move: 'order', order: 'quit' } });
    await store.settled();
    const { message } = store.app();
    print(told(store.app(), before));
    return message === before.message || message?.tone !== 'refusal';
  }

  function ask(): void {
    const app = store.app();
    const { lines: lead, prompt } = asked(app, shown);
    print(lead);
    // First the echo goes, then the question comes: whoever answers fast is not seen either.
    echo = app.pin ? hush(io.stdin, end) : () => {};
    io.out(`${rows(prompt.trimEnd()).join('\n')} `);
    shown = app;
  }

  /** A terminal would break words at its edge; whatever reads a pipe has each line whole. */
  function rows(text: string): readonly string[] {
    if (!io.stdout.isTTY) return [text];
    const indent = /^ */.exec(text)?.[0] ?? '';
    return wrap(text, Math.max(1, proseWidthOf(io) - 1 - indent.length)).map((row) => indent + row);
  }

  function print(texts: readonly string[]): void {
    for (const text of texts) for (const row of rows(text)) io.out(`${row}\n`);
  }
}

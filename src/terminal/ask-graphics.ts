import { ASK, type Graphics, graphicsOf, noAnswers, withAnswer } from './graphics.ts';

/** The part of a terminal that is needed to ask it something. */
interface Asked {
  size(): { readonly columns: number; readonly rows: number };
  readonly stdout: { write(text: string): unknown };
  /** Calls `fn` with each answer of the terminal to a question, which never becomes a key; the answer ends it. */
  onAnswer(fn: (bytes: string) => void): () => void;
}

/** Longest wait in milliseconds: a terminal here answers in 5, one behind a slow line in 100. */
const PATIENCE = 200;

/** Asks what the terminal can show; `null` when it shows characters only, or does not say so in time. */
export function askGraphics(terminal: Asked): Promise<Graphics | null> {
  return new Promise((resolve) => {
    let answers = noAnswers;
    const end = (): void => {
      clearTimeout(timer);
      stop();
      resolve(answers.heard === 'all' ? graphicsOf(answers, terminal.size()) : null);
    };
    const stop = terminal.onAnswer((bytes) => {
      answers = withAnswer(answers, bytes) ?? answers;
      if (answers.heard === 'all') end();
    });
    const timer = setTimeout(end, PATIENCE);
    terminal.stdout.write(ASK);
  });
}

import { type Graphics, graphicsOf, noAnswers, withAnswer } from './graphics.ts';
import type { Size } from './open-terminal.ts';

/** The part of a terminal that is needed to ask it something. */
interface Asked {
  size(): Size;
  readonly stdout: { write(text: string): unknown };
  /** Calls `fn` with each answer of the terminal to a question, which never becomes a key. */
  onAnswer(fn: (bytes: string) => void): unknown;
  onResize(fn: () => void): unknown;
}

/**
 * Asks a terminal what it can show, and tells it whenever it is answered: at once, or late where the line is slow. After each change of
 * the window it is asked anew, since a cell may then be of another size; until the answer it shows characters, as does a terminal that
 * shows nothing else or never answers: a picture made for other cells would cover the words.
 *
 * A terminal answers in turn, so all that comes up to the answer to the last question belongs together.
 */
export function followGraphics(terminal: Asked, questions: string, tell: (graphics: Graphics | null) => void): void {
  let answers = noAnswers;
  const ask = (): void => void terminal.stdout.write(questions);
  terminal.onAnswer((bytes) => {
    answers = withAnswer(answers, bytes) ?? answers;
    if (answers.heard === 'some') return;
    tell(graphicsOf(answers, terminal.size()));
    answers = noAnswers;
  });
  terminal.onResize(() => {
    tell(null);
    ask();
  });
  ask();
}

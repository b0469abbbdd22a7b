import { Writable } from 'node:stream';
import type { Terminal } from './open-terminal.ts';
import { drawn, erased, isSamePlace, type PlacedPicture } from './placed-picture.ts';

/**
 * What Ink believes is standard output: the same terminal, with a size that changes when the picture is ready for it, and with
 * room for one picture of pixels over blank cells of the frame.
 *
 * Ink draws at once when it hears of a new size, still with the old picture; its rows are then wider than the terminal, wrap,
 * and every later row lands one too low. So a new size is told in two steps: `size` to the components (use-size.ts), which draw
 * a picture that fits, and `resize` to Ink once they have.
 *
 * Of pixels Ink knows nothing: for it a cell under a picture is blank, and a blank row that stays blank is not written again. So
 * the old pixels are taken away before the frame that has no room for them, and the new ones drawn after the frame that has, all
 * inside the frame's synchronized update, in which nobody sees the terminal.
 */
export class Canvas extends Writable {
  readonly isTTY = true;
  columns: number;
  rows: number;
  private readonly terminal: Terminal;
  /** Pixels on the terminal. */
  private shown: PlacedPicture | null = null;
  /** Pixels that belong to the frame drawn last, or to the one that is about to be. */
  private wanted: PlacedPicture | null = null;
  /** Whether the frame about to be written may overwrite what is shown. */
  private cells: 'unchanged' | 'to be written' = 'unchanged';
  /** No pixels are drawn on a screen that is being emptied. */
  private screen: 'in use' | 'emptied' = 'in use';

  constructor(terminal: Terminal) {
    super({
      decodeStrings: false,
      // Answered at once, so that nothing waits in here while the terminal is given back.
      write: (text: string, _encoding, done) => {
        this.send(this.withPicture(text));
        done();
      },
    });
    this.terminal = terminal;
    ({ columns: this.columns, rows: this.rows } = terminal.size());
  }

  /**
   * Says which picture belongs to the frame that Ink is about to write; called before Ink hears of the frame. One that would reach
   * the last row is not shown: the terminal would scroll.
   */
  place(picture: PlacedPicture | null): void {
    const fits =
      picture !== null && picture.row + picture.rows < this.rows && picture.column + picture.columns <= this.columns;
    const before = this.wanted;
    this.wanted = fits ? picture : null;
    if (before?.beside !== this.wanted?.beside) this.cells = 'to be written';
  }

  /** Brings the pixels up to date where the frame had nothing new to write; called after Ink has heard of the frame. */
  settle(): void {
    if (this.screen === 'emptied') return;
    const text = this.takenAway() + this.added();
    if (text !== '') this.send(`${SYNC_ON}${text}${SYNC_OFF}`);
  }

  /** Takes all pixels away and draws none until `fill`: the screen is emptied, or given back. */
  empty(): void {
    if (this.shown) this.send(erased(this.shown));
    this.shown = null;
    this.screen = 'emptied';
  }

  /** Draws pixels again, those of the last frame at once. */
  fill(): void {
    this.screen = 'in use';
    this.settle();
  }

  private send(text: string): void {
    this.terminal.stdout.write(text);
  }

  private withPicture(text: string): string {
    if (this.screen === 'emptied' || text === '' || MODE.test(text)) return text;
    const before = this.takenAway();
    if (this.cells === 'to be written' && this.shown?.picture.way === 'sixel') this.shown = null;
    this.cells = 'unchanged';
    return before + text + this.added();
  }

  private takenAway(): string {
    const { shown, wanted } = this;
    if (shown === null || (wanted && isSamePlace(shown, wanted))) return '';
    this.shown = null;
    return erased(shown);
  }

  private added(): string {
    if (this.wanted === null || this.shown) return '';
    this.shown = this.wanted;
    return drawn(this.wanted);
  }
}

/** What Ink writes around a frame by itself: the marks of a synchronized update, the cursor hidden or shown. */
const MODE = /^\x1b\[\?\d+[hl]$/;

/** Synchronized update, private mode 2026. */
const SYNC_ON = '\x1b[?2026h';
const SYNC_OFF = '\x1b[?2026l';

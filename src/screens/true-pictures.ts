import type { StepPicture } from '../app/step-pictures.ts';
import type { SentPicture } from '../terminal/placed-picture.ts';
import type { Room } from '../widgets/page.ts';

/** Pictures of pixels, for a terminal that shows them. */
export interface TruePictures {
  /** The picture for a room of cells; null while it is being made, and where it cannot be. Asking for it makes it. */
  readonly find: (picture: StepPicture, room: Room) => SentPicture | null;
  /** Calls back whenever one was made, or the terminal has said what it shows; the answer ends it. */
  readonly subscribe: (changed: () => void) => () => void;
  /** Another number after each of these changes. */
  readonly version: () => number;
}

/** A terminal of characters. */
export const noTruePictures: TruePictures = { find: () => null, subscribe: () => () => {}, version: () => 0 };

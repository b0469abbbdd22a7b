import { type DrawingRead, isToScale } from '../../drawing/read-drawing.ts';
import type { Picture, Procedure } from '../procedure.ts';

/** A drawing that a procedure shows, as it was read. */
export interface ShownDrawing {
  readonly address: string;
  readonly read: DrawingRead;
  /** Where the text shows it first. */
  readonly picture: Picture;
}

/** A drawing by the address that a picture gives it; undefined for what is no SVG file or is not there. */
export type DrawingAt = (address: string) => DrawingRead | undefined;

/** The drawings that a procedure shows, each once, in their order. */
export function shownIn(procedure: Procedure, drawingAt: DrawingAt): readonly ShownDrawing[] {
  const shown = new Map<string, ShownDrawing | null>();
  for (const picture of procedure.steps.flatMap(({ pictures }) => pictures)) {
    if (shown.has(picture.address)) continue;
    const read = drawingAt(picture.address);
    shown.set(picture.address, read ? { address: picture.address, read, picture } : null);
  }
  return [...shown.values()].filter((each) => each !== null);
}

/** Whether there is a drawing that could be measured. */
export const isMeasurable = ({ read }: ShownDrawing): boolean => isToScale(read);

/** What is said of one that can't be, as a sentence with its way out; `instead` is another way. */
export const unmeasured = ({ address }: ShownDrawing, instead: string): string =>
  `${address} cannot be measured; mend what is said of it, or ${instead}.`;

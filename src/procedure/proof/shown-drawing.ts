import { type DrawingRead, isToScale } from '../../drawing/read-drawing.ts';
import type { Picture, Procedure, Step } from '../procedure.ts';

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

/** The drawings that are shown, those of a step first. */
export function nearestFirst(drawings: readonly ShownDrawing[], { pictures }: Step): readonly ShownDrawing[] {
  const own = drawings.filter(({ address }) => pictures.some((picture) => picture.address === address));
  return [...new Set([...own, ...drawings])];
}

/** Whether there is a drawing that could be measured. */
export const isMeasurable = ({ read }: ShownDrawing): boolean => isToScale(read);

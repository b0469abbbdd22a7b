import { setsLeft } from '../bundle/bundle.ts';
import { type Place, route } from '../bundle/route.ts';
import type { SeenPicture } from '../picture/seen-picture.ts';
import { namesIn, type Wanted } from '../picture/standing.ts';
import type { Picture } from '../procedure/procedure.ts';
import type { App, Play } from './app.ts';

/** A picture of the step at hand. */
export interface StepPicture {
  readonly alt: string;
  /** What it brings out, and what is sewn of the set at hand. */
  readonly wanted: Wanted;
  /** The file as it was read; undefined while it is not. */
  readonly seen: SeenPicture | undefined;
}

/** The pictures that the text shows at the step at hand, in its order; none where no step is at hand. */
export const picturesAtHand = (play: Pick<Play, 'next'> | null): readonly Picture[] =>
  play && 'at' in play.next ? play.next.at.step.pictures : [];

/** The same as far as they were read, with what each is to tell. */
export function stepPictures({ play, pictures }: Pick<App, 'play' | 'pictures'>): readonly StepPicture[] {
  if (!play || !('at' in play.next) || picturesAtHand(play).length === 0) return [];
  const { at } = play.next;
  const found = pictures?.of === play.procedure ? pictures.found : null;
  const sewn = sewnBefore(play, at);
  const seams = at.step.facts.seams?.ids ?? [];
  return at.step.pictures.map(({ alt, address, bringOut }) => {
    const seen = found?.get(address);
    // A drawing of which the text names nothing brings out the seams that are next.
    const broughtOut = bringOut.length === 0 && seen?.is === 'drawing' ? namesIn(seen.drawing, seams) : bringOut;
    return { alt, wanted: { broughtOut, sewn }, seen };
  });
}

/** Seams of the steps that are behind this one, in this set or in the whole bundle. */
function sewnBefore({ bundle, procedure }: Play, at: Place): readonly string[] {
  const places = route(procedure, setsLeft(bundle));
  const here = places.findIndex(({ step, set }) => step.id === at.step.id && set === at.set);
  return places
    .slice(0, Math.max(0, here))
    .filter(({ set }) => set === at.set || set === null)
    .flatMap(({ step }) => step.facts.seams?.ids ?? []);
}

/** The picture that is looked at: the first, unless another was chosen. */
export const pictureAt = (app: App): StepPicture | undefined =>
  stepPictures(app)[app.layer?.layer === 'picture' ? app.chosen : 0];

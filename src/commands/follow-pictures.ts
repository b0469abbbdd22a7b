import type { Play } from '../app/app.ts';
import { picturesAtHand, stepPictures } from '../app/step-pictures.ts';
import type { AppStore } from '../app/store.ts';
import { refuse } from '../base/result.ts';
import type { SeenPicture } from '../picture/seen-picture.ts';
import type { Picture, Procedure } from '../procedure/procedure.ts';
import type { FindPicture } from './find-picture.ts';

export interface Following {
  /** Resolves when the pictures of the step at hand are there, as far as they can be. */
  readonly seen: () => Promise<void>;
  readonly stop: () => void;
}

/**
 * Reads the pictures of each text that is played, beside the program, and tells of each as it is there: nobody waits for a
 * picture, and one that breaks says so in its place.
 */
export function followPictures(store: AppStore, find: FindPicture): Following {
  let wanted: Procedure | undefined;
  let turn = Promise.resolve();
  const look = (): void => {
    const { play } = store.app();
    if (!play || play.procedure === wanted) return;
    wanted = play.procedure;
    // One after another: an older text must not come in behind a newer one.
    turn = turn.then(() => read(play));
  };
  async function read(play: Play): Promise<void> {
    const { procedure } = play;
    const found = new Map<string, SeenPicture>();
    for (const picture of picturesOf(play)) {
      // Another text has taken its place, or the program is over.
      if (procedure !== wanted) return;
      if (found.has(picture.address)) continue;
      found.set(picture.address, await see(picture));
      store.tell({ news: 'pictures', pictures: { of: procedure, found: new Map(found) } });
    }
  }
  async function see(picture: Picture): Promise<SeenPicture> {
    try {
      const found = await find(picture);
      // Loaded with the first picture: the first frame shows none.
      const { seePicture } = await import('./see-picture.ts');
      return found.ok ? await seePicture(picture.address, found.value) : { is: 'unshown', why: found.error };
    } catch (error) {
      return broken(picture, error);
    }
  }
  look();
  const unsubscribe = store.subscribe(look);
  return {
    seen: () => {
      const { promise, resolve, reject } = Promise.withResolvers<void>();
      const check = (): void => {
        if (stepPictures(store.app()).every(({ seen }) => seen !== undefined)) resolve();
      };
      const stop = store.subscribe(check);
      check();
      // Nothing more comes of a text that is no longer played.
      void turn.then(() => store.settled()).then(resolve, reject);
      return promise.finally(stop);
    },
    stop: () => {
      unsubscribe();
      wanted = undefined;
    },
  };
}

/** Those of the step at hand first: they are looked at now. */
const picturesOf = (play: Play): readonly Picture[] => [
  ...picturesAtHand(play),
  ...play.procedure.steps.flatMap(({ pictures }) => pictures),
];

function broken({ address }: Picture, error: unknown): SeenPicture {
  const trouble = error instanceof Error ? error.message : String(error);
  const refused = refuse('picture-trouble', 'The picture {address} cannot be read. {trouble}', { address, trouble });
  return { is: 'unshown', why: refused.error };
}

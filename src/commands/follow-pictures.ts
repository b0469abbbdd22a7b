import type { AppStore } from '../app/store.ts';
import type { Procedure } from '../procedure/procedure.ts';
import type { PicturesOf } from './pictures-of.ts';
import { seePictures } from './see-pictures.ts';

export interface Following {
  /** Resolves when the pictures of the bundle at hand are there, as far as they can be. */
  readonly seen: () => Promise<void>;
  readonly stop: () => void;
}

/**
 * Reads the pictures of each text that is played, beside the program: nobody waits for a picture, and one that breaks stops nobody.
 */
export function followPictures(store: AppStore, picturesOf: PicturesOf): Following {
  let known: Procedure | undefined;
  let turn = Promise.resolve();
  const look = (): void => {
    const { play } = store.app();
    if (!play || play.procedure === known) return;
    known = play.procedure;
    // One after another: an older text must not come in behind a newer one.
    turn = turn.then(async () => {
      const found = await picturesOf(play)
        .then(seePictures)
        .catch(() => new Map());
      store.tell({ news: 'pictures', pictures: { of: play.procedure, found } });
      await store.settled();
    });
  };
  look();
  return { seen: () => turn, stop: store.subscribe(look) };
}

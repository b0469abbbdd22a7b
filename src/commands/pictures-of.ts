import type { Playing, RoomLedger } from '../app/room-ledger.ts';
import type { Digest } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { currentRelease, releaseOfText } from '../bundle/room.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import { readPicture } from '../storage/picture-files.ts';

export interface PictureBytes {
  readonly bytes: Uint8Array;
  readonly digest: Digest;
}

/** Finds the pictures of the text a bundle is played from, by their addresses. One that cannot be had says why. */
export type PicturesOf = (playing: Playing) => Promise<ReadonlyMap<string, Result<PictureBytes>>>;

/** The pictures as they were kept at the release of the bundle's text, whatever became of the files. */
export const keptPictures =
  (store: Pick<LedgerStore, 'kept'>, ledger: Pick<RoomLedger, 'room'>): PicturesOf =>
  (playing) => {
    const { text, procedure } = playing.bundle;
    const room = ledger.room();
    const release = text ? releaseOfText(room, text.digest) : currentRelease(room, procedure);
    return each(playing, async (address) => {
      const digest = release?.pictures.find((picture) => picture.address === address)?.digest;
      const kept = digest && (await store.kept(digest));
      return kept
        ? ok(kept)
        : refuse('picture-gone', 'The picture {address} was not kept with this revision.', { address });
    });
  };

/** The pictures of a draft, as the files are now. `file` is the draft's name relative to the room. */
export const picturesInFolder =
  (folder: string, file: string): PicturesOf =>
  (playing) =>
    each(playing, async (address) => readPicture(folder, file, address));

async function each(
  { procedure }: Playing,
  find: (address: string) => Promise<Result<PictureBytes>>,
): ReturnType<PicturesOf> {
  const addresses = new Set(procedure.steps.flatMap(({ pictures }) => pictures.map(({ address }) => address)));
  const found = new Map<string, Result<PictureBytes>>();
  for (const address of addresses) found.set(address, await find(address));
  return found;
}

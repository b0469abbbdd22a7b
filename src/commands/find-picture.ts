import type { Digest } from '../base/brand.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import type { Picture } from '../procedure/procedure.ts';
import { readPicture } from '../storage/picture-files.ts';

export interface PictureBytes {
  readonly bytes: Uint8Array;
  readonly digest: Digest;
}

/** Finds the file of a picture of the text that is played; refuses where there is none. Rejects when the disk fails. */
export type FindPicture = (picture: Picture) => Promise<Result<PictureBytes>>;

/** The pictures that were kept with a released text, whatever became of the files. */
export const keptPictures =
  (store: Pick<LedgerStore, 'kept'>): FindPicture =>
  async ({ address, digest }) => {
    const kept = digest && (await store.kept(digest));
    return kept
      ? ok(kept)
      : refuse('picture-gone', 'The picture {address} was not kept with this revision.', { address });
  };

/** The pictures of a draft, as the files are now. `file` is the draft's name relative to the room. */
export const picturesInFolder =
  (folder: string, file: string): FindPicture =>
  async ({ address }) =>
    readPicture(folder, file, address);

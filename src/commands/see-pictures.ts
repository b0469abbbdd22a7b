import type { Playing, RoomLedger } from '../app/room-ledger.ts';
import type { Digest } from '../base/brand.ts';
import { type Result, refuse } from '../base/result.ts';
import { currentRelease, releaseOfText } from '../bundle/room.ts';
import { isToScale, readDrawing } from '../drawing/read-drawing.ts';
import type { LedgerStore } from '../ledger/ledger-store.ts';
import type { SeenPicture } from '../picture/seen-picture.ts';
import { greysOf } from '../raster/raster.ts';
import { readPicture } from '../storage/picture-files.ts';

/** Reads the pictures of the text a bundle is played from, by their addresses. One that cannot be shown says so in its place. */
export type SeePictures = (playing: Playing) => Promise<ReadonlyMap<string, SeenPicture>>;

interface PictureBytes {
  readonly bytes: Uint8Array;
  readonly digest: Digest;
}

/** The pictures as they were kept at the release of the bundle's text, whatever became of the files. */
export const keptPictures =
  (store: LedgerStore, ledger: RoomLedger): SeePictures =>
  async (playing) => {
    const { text, procedure } = playing.bundle;
    const room = ledger.room();
    const release = text ? releaseOfText(room, text.digest) : currentRelease(room, procedure);
    return seen(playing, async (address) => {
      const digest = release?.pictures.find((each) => each.address === address)?.digest;
      const kept = digest && (await store.kept(digest));
      return kept
        ? { ok: true, value: kept }
        : refuse('picture-gone', 'The picture {address} was not kept with this revision.', { address });
    });
  };

/** The pictures of a draft, as the files are now. `file` is the draft's name relative to the room. */
export const picturesInFolder =
  (folder: string, file: string): SeePictures =>
  (playing) =>
    seen(playing, async (address) => readPicture(folder, file, address));

async function seen(
  { procedure }: Playing,
  bytesOf: (address: string) => Promise<Result<PictureBytes>>,
): Promise<ReadonlyMap<string, SeenPicture>> {
  const addresses = new Set(procedure.steps.flatMap(({ pictures }) => pictures.map(({ address }) => address)));
  const found = new Map<string, SeenPicture>();
  for (const address of addresses) {
    const bytes = await bytesOf(address);
    found.set(address, bytes.ok ? await seePicture(address, bytes.value) : { is: 'unshown', why: bytes.error });
  }
  return found;
}

async function seePicture(address: string, { bytes, digest }: PictureBytes): Promise<SeenPicture> {
  if (/\.svg$/i.test(address)) {
    const read = readDrawing(new TextDecoder().decode(bytes), address);
    const isEmpty = read.drawing.parts.length === 0 || read.drawing.box.width <= 0 || read.drawing.box.height <= 0;
    return isEmpty
      ? unread(address)
      : { is: 'drawing', digest, drawing: read.drawing, scale: isToScale(read) ? 'to scale' : 'not to scale' };
  }
  const greys = await greysOf({ photo: bytes }, GREYS);
  return greys.ok ? { is: 'photograph', digest, bytes, greys: greys.value } : { is: 'unshown', why: greys.error };
}

/** Enough for the largest screen of characters, where a cell is two greys high. */
const GREYS = { width: 200, height: 150 };

function unread(address: string): SeenPicture {
  const refused = refuse(
    'drawing-unread',
    'Nothing of the drawing {address} can be shown: `walkfoot proofread` tells why.',
    { address },
  );
  return { is: 'unshown', why: refused.error };
}
